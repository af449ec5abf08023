// The types of the three kinds of file. Made by: npx tsx schema/build/generate.ts

export type AnyFile = RoomFile | GearFile | FacilityFile;
/**
 * What people call it.
 */
export type Name = string;
/**
 * A day: year, month, day. `unknown` if it was not written down.
 */
export type Day = string;
/**
 * Who did it.
 */
export type Person = string;
/**
 * A remark for people; it is printed on the setup sheet. Comments (`# …`) stay private.
 */
export type Note = string;
/**
 * Outer size: `width` from left to right, `depth` from front to back, `height` from bottom to top.
 */
export type Box =
  | {
      width: Extent;
      depth: Extent;
      height: Extent;
      note?: Note;
    }
  | string;
/**
 * The length of something that has one, so more than 0, in m, cm, mm, ft or in.
 */
export type Extent = string;
/**
 * A room of any shape, seen from above: each entry names a wall and gives the corner that it starts from; it ends where the next one starts. Here, and nowhere else, the order counts. Either way round will do.
 */
export type Plan =
  | {
      /**
       * The corner that this wall starts from.
       */
      [k: string]: {
        x: Position;
        y: Position;
        note?: Note;
      };
    }
  | string;
/**
 * A place along one axis, in m, cm, mm, ft or in.
 */
export type Position = string;
/**
 * A sloped ceiling: its heights at front and back, at left and right, or at three corners of the room's outline (any plane).
 */
export type Ceiling =
  | {
      front?: Extent;
      back?: Extent;
      left?: Extent;
      right?: Extent;
      front_left?: Extent;
      front_right?: Extent;
      back_left?: Extent;
      note?: Note;
    }
  | string;
/**
 * The air, from which the speed of sound follows: its temperature (with humidity and pressure where known), or the speed of sound itself.
 */
export type Air =
  | {
      temperature?: Temperature;
      humidity?: Humidity;
      pressure?: Pressure;
      speed_of_sound?: Speed;
      note?: Note;
    }
  | string;
/**
 * The temperature of the air, in °C, °F or K.
 */
export type Temperature = string;
/**
 * The relative humidity of the air, in %.
 */
export type Humidity = string;
/**
 * The static pressure of the air where the room is (not reduced to sea level), in hPa, kPa or Pa.
 */
export type Pressure = string;
/**
 * A speed of sound, in m/s or ft/s.
 */
export type Speed = string;
/**
 * What a surface is made of: a `material`, measured `absorption`, `shares` of several materials, or its `admittance`.
 */
export type Surface =
  | {
      /**
       * The material, by its name.
       */
      material?: string;
      /**
       * The absorption coefficient at each frequency: 0 reflects everything, 1 nothing. Measured ones may pass 1 a little.
       */
      absorption?:
        | {
            /**
             * The absorption coefficient in this band.
             */
            [k: string]: number;
          }
        | string;
      /**
       * How much of the surface is of which material.
       */
      shares?: {
        [k: string]: Share;
      };
      /**
       * The specific wall admittance (ρc divided by the wall's impedance), for experts; complex where a wall gives way like a spring.
       */
      admittance?:
        | number
        | {
            /**
             * The part that takes energy away.
             */
            real: number;
            /**
             * The part that gives way: positive like a spring, negative like a mass (time factor e^{+jωt}).
             */
            imaginary: number;
            note?: Note;
          }
        | string;
      note?: Note;
    }
  | string;
/**
 * A part of the whole, in %.
 */
export type Share = string;
/**
 * A length of time in s, ms, µs, min or h.
 */
export type Duration = string;
/**
 * How quiet the room is with everything on: as a noise rating, a weighted level, or levels in bands.
 */
export type BackgroundNoise =
  | {
      /**
       * The noise rating (NR) that the room's noise stays below.
       */
      nr?: number;
      /**
       * The noise criterion (NC) that the room's noise stays below.
       */
      nc?: number;
      level?: SoundLevel;
      bands?: LevelsByFrequency;
      note?: Note;
    }
  | string;
/**
 * A sound pressure level, in dB re 20 µPa, or weighted: dBA, dBC, dBZ.
 */
export type SoundLevel = string;
/**
 * A level at each frequency.
 */
export type LevelsByFrequency =
  | {
      [k: string]: SoundLevel;
    }
  | string;
/**
 * Something in the room: a region to keep clear, an obstacle, or a panel on a wall.
 */
export type Fixture = KeepClear | Obstacle | Panel;
/**
 * From where to where, as two places.
 */
export type Span = Position[] | string;
/**
 * Text for people.
 */
export type Prose = string;
/**
 * A place in the room: `x` to the right along the front wall from its left corner, `y` from the front wall towards the back, `z` up from the floor.
 */
export type Point =
  | {
      x: Position;
      y: Position;
      z: Position;
      note?: Note;
    }
  | string;
/**
 * Its model, by the name that a gear file gives it.
 */
export type GearModel = string;
/**
 * One particular piece of the facility's inventory, by its name there; the model follows from it.
 */
export type GearItem = string;
/**
 * A channel's label of ITU-R BS.2051 or BS.775.
 */
export type Channel = string;
/**
 * What it is turned to: a seat, or a point.
 */
export type Aim =
  | {
      x: Position;
      y: Position;
      z: Position;
      note?: Note;
    }
  | string;
/**
 * What holds it: built into a wall, hung from a wall or the ceiling, or standing on something. Hanging loads are the work of licensed people under the local code.
 */
export type Mount =
  | {
      /**
       * The wall (or `ceiling`) that it is built into, its baffle in line with the wall.
       */
      flush_in?: string;
      /**
       * The wall or the ceiling that it hangs from.
       */
      hung_from?: string;
      /**
       * What it stands on: `floor`, or a fixture such as the desk.
       */
      stands_on?: string;
      note?: Note;
    }
  | string;
/**
 * How long a cable is, in m, cm, mm, ft or in.
 */
export type CableLength = string;
/**
 * An electric current, in A or mA.
 */
export type Current = string;
/**
 * The voltage of a mains circuit, in V.
 */
export type MainsVoltage = string;
/**
 * A loudspeaker layout of ITU-R BS.2051: how many in the upper, middle and bottom layer.
 */
export type Layout = string;
/**
 * How many samples a second, in kHz or Hz.
 */
export type SampleRate = string;
/**
 * A signal's level: dBu, dBV or V in a wire, dBFS in a digital path.
 */
export type InputSensitivity = string;
/**
 * How much louder or quieter, in dB.
 */
export type Gain = string;
/**
 * A high-pass or low-pass: its frequency and slope; or `bypass`.
 */
export type Filter =
  | {
      frequency: Frequency;
      slope?: Slope;
      kind?: FilterKind;
      note?: Note;
    }
  | string;
/**
 * A frequency in Hz or kHz.
 */
export type Frequency = string;
/**
 * How steep a filter or a roll-off is, in dB/oct.
 */
export type Slope = string;
/**
 * The filter's shape around its frequency: `linkwitz_riley` is −6 dB there, `butterworth` −3 dB.
 */
export type FilterKind = 'linkwitz_riley' | 'butterworth' | 'bessel' | 'unknown';
/**
 * A delay as the device takes it: a time, a number of samples, or a path length.
 */
export type Delay = string;
/**
 * An angle, in ° (or deg).
 */
export type Phase = string;
/**
 * Whether the signal is turned over.
 */
export type Polarity = 'normal' | 'inverted' | 'unknown';
/**
 * The bands of the parametric EQ, by names of your own (`band_1`); or `bypass`.
 */
export type Eq =
  | {
      note?: Note;
      [k: string]: EqBand | Note | undefined;
    }
  | string;
/**
 * One band of the parametric EQ; or `bypass`.
 */
export type EqBand =
  | {
      /**
       * The band's shape; `bell` where it is left out.
       */
      kind?: 'bell' | 'low_shelf' | 'high_shelf' | 'notch' | 'unknown';
      frequency: Frequency;
      gain?: Gain;
      /**
       * How narrow it is: centre frequency divided by bandwidth.
       */
      q?: number | string;
      note?: Note;
    }
  | string;
/**
 * The limiter: its threshold, `on` where it has none to set, or `bypass`.
 */
export type Limiter =
  | {
      threshold: InputSensitivity;
      note?: Note;
    }
  | string;
/**
 * The position of a switch of the device's own, by the name that its gear model gives the choice.
 */
export type Switch = string | number;
/**
 * After how long without signal it goes to sleep; `off` keeps it awake.
 */
export type Standby = string;
/**
 * The response that is wanted at the reference seat: `flat`, or gains at frequencies.
 */
export type Curve =
  | {
      /**
       * The same level at every frequency.
       */
      flat?: true;
      points?: GainsByFrequency;
      note?: Note;
    }
  | string;
/**
 * A gain at each frequency; between them it is a straight line over a logarithmic frequency axis.
 */
export type GainsByFrequency =
  | {
      [k: string]: Gain;
    }
  | string;
/**
 * A length that is not negative, in m, cm, mm, ft or in.
 */
export type Distance = string;
/**
 * A difference of levels that is not negative, in dB.
 */
export type Difference = string;
/**
 * The set-up's fingerprint, put in by the tool: `s-` and four hexadecimal digits each for room, places, gear, wiring and settings. A later edit of the set-up shows as out of date, with the part that it changed. `s-` and eight digits stand for the whole, without saying which part.
 */
export type Fingerprint = string;
/**
 * A file, its path written from the folder of this file, with `/` between folders.
 */
export type File = string;
/**
 * The serial number, in quotes so that leading zeros stay.
 */
export type Serial = string;
/**
 * A finding's code, as it is shown with the finding.
 */
export type FindingCode = string;
/**
 * A time by the calendar, in days, weeks, months or years.
 */
export type Period = string;
/**
 * A mass, in kg, g or lb.
 */
export type Mass = string;
/**
 * Where and how steeply it falls off: the −6 dB point and the slope, or a response file, from which both follow. Only a response with phase makes the phase trustworthy.
 */
export type RollOff =
  | {
      minus_6_db?: Frequency;
      slope?: Slope;
      /**
       * How the box is built.
       */
      kind?: 'sealed' | 'vented' | 'passive_radiator' | 'unknown';
      protection?: Filter;
      response?: File;
      note?: Note;
    }
  | string;
/**
 * The highest peak level in each band, at a distance, in full or half space.
 */
export type MaxLevel =
  | {
      at: Extent;
      /**
       * What it radiated into: `full` space (in the open), `half` (on a floor: 6 dB more at low frequencies), `quarter`, `eighth`.
       */
      space: 'full' | 'half' | 'quarter' | 'eighth' | 'unknown';
      peak: LevelsByFrequency;
      note?: Note;
    }
  | string;
/**
 * A load's nominal impedance, in Ω (or ohm).
 */
export type Resistance = string;
/**
 * Electrical power drawn from the mains, in W or kW.
 */
export type Power = string;
/**
 * The time that processing takes, in ms, or in samples where the rate is known.
 */
export type Latency = string;
/**
 * A name of your own: a small letter, then small letters, digits and `_`.
 */
export type Id = string;
/**
 * Whether it can be taken out of the path.
 */
export type CanBypass = boolean;
/**
 * Which files: a path from the folder of this file; `*` stands for any part of a name, `**` for any folders.
 */
export type FilePattern = string;

/**
 * One room: what is there, what is set, what was measured, who signed. `*.room.yaml`
 */
export interface RoomFile {
  /**
   * The kind of this file and the version of its format. It is the first key.
   */
  room: 1;
  name?: Name;
  /**
   * Which policy of the facility this room follows. The room's own `targets` override it.
   */
  policy?: string;
  /**
   * When the room was measured up, and by whom.
   */
  surveyed?: {
    date?: Day;
    by?: Person;
    note?: Note;
  };
  space?: Space;
  /**
   * Where people listen.
   */
  seats?: {
    [k: string]: Seat;
  };
  /**
   * The loudspeakers that play a channel each. Speakers, subwoofers and devices share their names.
   */
  speakers?: {
    [k: string]: Speaker;
  };
  /**
   * The subwoofers. Which channels' bass each carries follows from the wiring.
   */
  subwoofers?: {
    [k: string]: Subwoofer;
  };
  /**
   * What stands in the signal path besides loudspeakers: interfaces, controllers, processors, amplifiers, switches.
   */
  devices?: {
    [k: string]: Device;
  };
  /**
   * Which output feeds which input, as `desk.main_left -> sub.in_left`: the thing's name, a dot, its port. A network port's channel follows after one more dot: `desk.net.12 -> sub.net`.
   *
   * Items: One connection, from an output to an input.
   */
  wiring?: string[];
  /**
   * The physical runs, where they matter: their lengths and kinds.
   */
  cables?: {
    [k: string]: Cable;
  };
  /**
   * The mains circuits and what each feeds. Mains wiring is the work of licensed people under the local code.
   */
  circuits?: {
    [k: string]: Circuit;
  };
  /**
   * Sets of monitors that are switched between, such as far and near.
   */
  sets?: {
    [k: string]: MonitorSet;
  };
  /**
   * Exactly what is dialled in, by the name of the speaker, subwoofer or device that it is dialled in on.
   */
  settings?: {
    [k: string]: Settings;
  };
  targets?: Targets;
  /**
   * Measurements, each session tied to the set-up that it was taken in.
   */
  sessions?: {
    [k: string]: Session;
  };
  /**
   * What was considered and not built: each is an overlay over this room.
   */
  alternatives?: {
    [k: string]: Alternative;
  };
  /**
   * Findings that someone decided to live with, why, and until when.
   */
  accepted?: {
    [k: string]: Accepted;
  };
  /**
   * Listening checks with known programme at a moderate level, and how they came out.
   */
  listening?: {
    [k: string]: ListeningCheck;
  };
  /**
   * Who says that the room is as it should be, of which set-up, and when it is to be looked at again.
   */
  signed_off?: {
    date: Day;
    by: Person;
    setup?: Fingerprint;
    recheck?: Period;
    note?: Note;
  };
  note?: Note;
}
/**
 * The room itself: its shape, air, surfaces, decay, noise and what stands in it.
 */
export interface Space {
  size?: Box;
  plan?: Plan;
  height?: Extent;
  ceiling?: Ceiling;
  air?: Air;
  /**
   * What each wall, the floor and the ceiling are made of. The walls are `front`, `right`, `back`, `left`, or those of the plan.
   */
  surfaces?: {
    [k: string]: Surface;
  };
  /**
   * The measured decay time (reverberation time, the time of a fall by 60 dB) in each band.
   */
  decay_time?:
    | {
        [k: string]: Duration;
      }
    | string;
  background_noise?: BackgroundNoise;
  /**
   * What stands in the room or has to be kept clear: desks, doors' ways, panels on the walls.
   */
  fixtures?: {
    [k: string]: Fixture;
  };
  note?: Note;
}
/**
 * Where nothing may stand, such as a door's swing or the way out.
 */
export interface KeepClear {
  /**
   * A region where nothing may stand.
   */
  kind: 'keep_clear';
  x: Span;
  y: Span;
  z?: Span;
  because?: Prose;
  note?: Note;
}
/**
 * Something solid, such as the desk: nothing else can stand there, and sound reflects from it.
 */
export interface Obstacle {
  /**
   * Something solid.
   */
  kind: 'obstacle';
  x: Span;
  y: Span;
  z: Span;
  note?: Note;
}
/**
 * A part of a wall with a surface of its own, such as an absorber.
 */
export interface Panel {
  /**
   * A part of a wall with a surface of its own.
   */
  kind: 'panel';
  /**
   * The wall that it is on.
   */
  wall: string;
  along: Span;
  z: Span;
  surface: Surface;
  note?: Note;
}
/**
 * A place where someone listens.
 */
export interface Seat {
  at: Point;
  /**
   * `reference`: the seat that angles, levels and delays are worked out for. One seat has it.
   */
  role?: 'reference' | 'unknown';
  note?: Note;
}
/**
 * A loudspeaker that plays one channel.
 */
export interface Speaker {
  gear?: GearModel;
  item?: GearItem;
  channel?: Channel;
  at: Point;
  aim?: Aim;
  mount?: Mount;
  note?: Note;
}
/**
 * A subwoofer. Which channels' bass it carries follows from the wiring.
 */
export interface Subwoofer {
  gear?: GearModel;
  item?: GearItem;
  at: Point;
  aim?: Aim;
  mount?: Mount;
  note?: Note;
}
/**
 * An interface, controller, processor, amplifier or switch.
 */
export interface Device {
  gear?: GearModel;
  item?: GearItem;
  at?: Point;
  /**
   * Which channel each output carries, where the wiring alone cannot tell: of a source that feeds several loudspeakers through a subwoofer or a processor.
   */
  channels?: {
    [k: string]: Channel;
  };
  note?: Note;
}
/**
 * One physical run.
 */
export interface Cable {
  /**
   * Where it starts: a thing's name, or one of its ports.
   */
  from: string;
  /**
   * Where it ends: a thing's name, or one of its ports.
   */
  to: string;
  length?: CableLength;
  /**
   * What kind of cable it is.
   */
  kind?:
    | 'balanced'
    | 'unbalanced'
    | 'digital'
    | 'network'
    | 'optical'
    | 'loudspeaker'
    | 'mains'
    | 'unknown';
  label?: Name;
  note?: Note;
}
/**
 * One mains circuit with its own breaker.
 */
export interface Circuit {
  rating?: Current;
  voltage?: MainsVoltage;
  /**
   * What hangs on it.
   *
   * Items: A speaker, subwoofer or device.
   */
  feeds: string[];
  note?: Note;
}
/**
 * Which loudspeakers play together when this set is switched on, and in which layout.
 */
export interface MonitorSet {
  /**
   * The loudspeakers of this set.
   *
   * Items: A speaker of this room.
   */
  speakers: string[];
  /**
   * The subwoofers that play with them; several sets may share one.
   *
   * Items: A subwoofer of this room.
   */
  subwoofers?: string[];
  layout?: Layout;
  note?: Note;
}
/**
 * What is dialled in on one device, subwoofer or loudspeaker. Stages have fixed names; a switch of the device's own goes by the name that its gear model gives it.
 */
export interface Settings {
  sample_rate?: SampleRate;
  /**
   * Settings of single ports, by the port's name.
   */
  ports?: {
    [k: string]: PortSettings;
  };
  /**
   * Settings that apply only while one set of monitors is switched on, by the set's name.
   */
  sets?: {
    [k: string]: SetSettings;
  };
  input_sensitivity?: InputSensitivity;
  gain?: Gain;
  level?: Gain;
  high_pass?: Filter;
  low_pass?: Filter;
  crossover?: Filter;
  delay?: Delay;
  phase?: Phase;
  polarity?: Polarity;
  eq?: Eq;
  limiter?: Limiter;
  lfe_gain?: Gain;
  lfe_low_pass?: Filter;
  standby?: Standby;
  note?: Note;
  [k: string]:
    | Switch
    | SampleRate
    | {
        [k: string]: PortSettings;
      }
    | {
        [k: string]: SetSettings;
      }
    | Filter
    | Polarity
    | Eq
    | Limiter
    | undefined;
}
/**
 * What is dialled in on one port.
 */
export interface PortSettings {
  input_sensitivity?: InputSensitivity;
  gain?: Gain;
  level?: Gain;
  high_pass?: Filter;
  low_pass?: Filter;
  crossover?: Filter;
  delay?: Delay;
  phase?: Phase;
  polarity?: Polarity;
  eq?: Eq;
  limiter?: Limiter;
  lfe_gain?: Gain;
  lfe_low_pass?: Filter;
  note?: Note;
  [k: string]: Switch | InputSensitivity | Filter | Polarity | Eq | Limiter | undefined;
}
/**
 * What is dialled in while this set of monitors is switched on.
 */
export interface SetSettings {
  /**
   * Settings of single ports for this set, by the port's name.
   */
  ports?: {
    [k: string]: PortSettings;
  };
  input_sensitivity?: InputSensitivity;
  gain?: Gain;
  level?: Gain;
  high_pass?: Filter;
  low_pass?: Filter;
  crossover?: Filter;
  delay?: Delay;
  phase?: Phase;
  polarity?: Polarity;
  eq?: Eq;
  limiter?: Limiter;
  lfe_gain?: Gain;
  lfe_low_pass?: Filter;
  note?: Note;
  [k: string]:
    | Switch
    | {
        [k: string]: PortSettings;
      }
    | InputSensitivity
    | Filter
    | Polarity
    | Eq
    | Limiter
    | undefined;
}
/**
 * What the room is set up for. What stands here overrides the policy.
 */
export interface Targets {
  layout?: Layout;
  reference_level?: SoundLevel;
  /**
   * Where the monitor control stands at the reference level.
   */
  monitor_control?:
    | {
        /**
         * What the control shows, in quotes.
         */
        position: string;
        note?: Note;
      }
    | string;
  curve?: Curve;
  tolerances?: Tolerances;
  severity?: Severities;
  note?: Note;
}
/**
 * How far a room may be off before it is a finding. What is not named here follows the standard in force.
 */
export interface Tolerances {
  distance?: Distance;
  height?: Distance;
  symmetry?: Distance;
  azimuth?: Phase;
  elevation?: Phase;
  arrival?: Duration;
  pair_arrival?: Duration;
  level?: Difference;
  pair_level?: Difference;
  response?: Difference;
  seat_spread?: Difference;
  crossover_ripple?: Difference;
  drift?: Difference;
  decay_time?: Share;
  note?: Note;
}
/**
 * How serious a finding is here, by its code; `off` leaves it out.
 */
export interface Severities {
  /**
   * How serious this finding is here.
   */
  [k: string]: 'error' | 'warning' | 'information' | 'hint' | 'off';
}
/**
 * Measurements taken in one set-up of the room.
 */
export interface Session {
  date: Day;
  by?: Person;
  setup?: Fingerprint;
  air?: Air;
  /**
   * The microphone, and the file that corrects its response.
   */
  microphone?: {
    correction?: File;
    serial?: Serial;
    note?: Note;
  };
  /**
   * The interface that played and recorded, and the file that corrects its response.
   */
  interface?: {
    correction?: File;
    serial?: Serial;
    note?: Note;
  };
  sweep?: File;
  /**
   * The channel of the WAV files that the microphone is on, from 1; the first where left out.
   */
  channel?: number;
  /**
   * The channel of the WAV files that recorded the output by a wire, from 1: the timing reference of a recorded sweep.
   */
  loopback?: number;
  /**
   * The recording of a sound calibrator on the microphone, with the gain of this session: by it, levels are sound pressure levels.
   */
  calibrator?: {
    file: File;
    level: SoundLevel;
    frequency?: Frequency;
    /**
     * The channel of the WAV file that the microphone is on, from 1; that of the session where left out.
     */
    channel?: number;
    serial?: Serial;
    note?: Note;
  };
  full_scale?: SoundLevel;
  /**
   * Recordings of the background noise: everything on, and nothing plays.
   */
  noise?: {
    [k: string]: NoiseRecording;
  };
  /**
   * The single measurements.
   */
  takes?: {
    [k: string]: Take;
  };
  /**
   * Averages over several takes.
   */
  averages?: {
    [k: string]: Average;
  };
  note?: Note;
}
/**
 * The background noise at one place: a WAV file of some seconds in which nothing plays.
 */
export interface NoiseRecording {
  file: File;
  /**
   * The seat at which the microphone was.
   */
  seat?: string;
  at?: Point;
  /**
   * The channel of the WAV file that the microphone is on, from 1; that of the session where left out.
   */
  channel?: number;
  note?: Note;
}
/**
 * One measurement: the file, what was driven, what sounded, and where the microphone was.
 */
export interface Take {
  file: File;
  /**
   * The channel that the test signal was played on.
   */
  drive?: string;
  /**
   * What was heard; everything else was off or muted.
   *
   * Items: A speaker or subwoofer.
   */
  sounding?: string[];
  /**
   * The seat at which the microphone was.
   */
  seat?: string;
  at?: Point;
  /**
   * The stages that were bypassed for this take.
   *
   * Items: A stage, such as `eq`.
   */
  bypassed?: string[];
  /**
   * Settings that were different for this take only, such as a polarity turned over.
   */
  changed?: {
    [k: string]: Settings;
  };
  /**
   * What arrival times refer to: `loopback` (a wire from output to input), `acoustic` (a loudspeaker that plays in each take), or `none`.
   */
  timing?: 'loopback' | 'acoustic' | 'none' | 'unknown';
  sweep?: File;
  /**
   * The channel of the WAV file that the microphone is on, from 1; the first where left out.
   */
  channel?: number;
  /**
   * The channel of the WAV file that recorded the output by a wire, from 1: the timing reference of a recorded sweep.
   */
  loopback?: number;
  note?: Note;
}
/**
 * Several takes averaged into one response.
 */
export interface Average {
  /**
   * The takes of this session that are averaged.
   *
   * Items: A take of this session.
   */
  takes: string[];
  /**
   * How: `power` (mean of squared pressures), `level` (mean of decibels), `vector` (with phase).
   */
  by: 'power' | 'level' | 'vector' | 'unknown';
  note?: Note;
}
/**
 * Another way to set the room up: what would be different, in the shape of this file.
 */
export interface Alternative {
  because?: Prose;
  /**
   * What is different, in the shape of this file; the value `absent` takes a thing away.
   */
  change: Record<string, unknown>;
  note?: Note;
}
/**
 * A finding that someone decided to live with. It is still shown, as accepted.
 */
export interface Accepted {
  finding: FindingCode;
  /**
   * What the finding is about: keys from the top of this file, joined by dots.
   */
  about: string;
  because: Prose;
  until?: Day;
  by?: Person;
  date?: Day;
  note?: Note;
}
/**
 * Known programme, and what to listen for.
 */
export interface ListeningCheck {
  play: Prose;
  listen_for?: Prose;
  level?: SoundLevel;
  note?: Note;
}
/**
 * Models of loudspeakers, subwoofers, interfaces, controllers, processors, amplifiers and switches: what they can do and which settings they offer. `*.gear.yaml`
 */
export interface GearFile {
  /**
   * The kind of this file and the version of its format. It is the first key.
   */
  gear: 1;
  /**
   * The models, by the name that rooms and the inventory use.
   */
  models: {
    [k: string]: Model;
  };
  note?: Note;
}
/**
 * What one model can do.
 */
export interface Model {
  /**
   * What it is.
   */
  kind:
    'loudspeaker' | 'subwoofer' | 'interface' | 'controller' | 'processor' | 'amplifier' | 'switch';
  maker?: Name;
  name?: Name;
  size?: Box;
  mass?: Mass;
  low_end?: RollOff;
  high_end?: RollOff;
  max_level?: MaxLevel;
  full_level_input?: InputSensitivity;
  full_level_output?: InputSensitivity;
  output_noise?: InputSensitivity;
  self_noise?: SoundLevel;
  gain?: Gain;
  impedance?: Resistance;
  power?: Power;
  latency?: Latency;
  /**
   * The sample rates that it can run at; of one that has only one rate, that rate.
   */
  sample_rates?: SampleRate[];
  /**
   * Its inputs. A network port that carries many channels is one port.
   */
  inputs?: Id[];
  /**
   * Its outputs. A loudspeaker's `driver` need not be named here: it is where its paths end.
   */
  outputs?: Id[];
  /**
   * Where several paths are added inside it.
   */
  buses?: {
    [k: string]: Bus;
  };
  /**
   * The signal's ways through it, with the same arrow as in wiring: from a port or bus, stage after stage, to a port, a bus or `driver`.
   *
   * Items: One way through it.
   */
  paths?: string[];
  controls?: Controls;
  note?: Note;
}
/**
 * Where several paths are added.
 */
export interface Bus {
  sum?: Gain;
  note?: Note;
}
/**
 * How it really takes each value: range and step, or the choices. Switches go by names of their own.
 */
export interface Controls {
  each_port?: PortControls;
  input_sensitivity?: InputSensitivityControl;
  gain?: GainControl;
  level?: GainControl;
  high_pass?: FilterControl;
  low_pass?: FilterControl;
  crossover?: CrossoverControl;
  delay?: DelayControl;
  phase?: PhaseControl;
  polarity?: PolarityControl;
  eq?: EqControl;
  limiter?: LimiterControl;
  lfe_gain?: GainControl;
  lfe_low_pass?: FilterControl;
  standby?: StandbyControl;
  note?: Note;
  [k: string]:
    | SwitchControl
    | PortControls
    | InputSensitivityControl
    | GainControl
    | FilterControl
    | CrossoverControl
    | DelayControl
    | PhaseControl
    | PolarityControl
    | EqControl
    | LimiterControl
    | StandbyControl
    | Note
    | undefined;
}
/**
 * Controls that each port has for itself.
 */
export interface PortControls {
  input_sensitivity?: InputSensitivityControl;
  gain?: GainControl;
  level?: GainControl;
  high_pass?: FilterControl;
  low_pass?: FilterControl;
  crossover?: CrossoverControl;
  delay?: DelayControl;
  phase?: PhaseControl;
  polarity?: PolarityControl;
  eq?: EqControl;
  limiter?: LimiterControl;
  lfe_gain?: GainControl;
  lfe_low_pass?: FilterControl;
  note?: Note;
  [k: string]:
    | SwitchControl
    | InputSensitivityControl
    | GainControl
    | FilterControl
    | CrossoverControl
    | DelayControl
    | PhaseControl
    | PolarityControl
    | EqControl
    | LimiterControl
    | Note
    | undefined;
}
/**
 * The input level that gives full output: the choices, or the range.
 */
export interface InputSensitivityControl {
  /**
   * The positions that it has.
   */
  choices?: InputSensitivity[];
  min?: InputSensitivity;
  max?: InputSensitivity;
  step?: Difference;
  note?: Note;
}
/**
 * A gain or level: its range and step, or the choices.
 */
export interface GainControl {
  /**
   * The positions that it has.
   */
  choices?: Gain[];
  min?: Gain;
  max?: Gain;
  step?: Difference;
  note?: Note;
}
/**
 * A high-pass or low-pass: which frequencies and slopes it takes.
 */
export interface FilterControl {
  kind?: FilterKind;
  frequency: FrequencyValues;
  slope?: SlopeValues;
  bypass?: CanBypass;
  note?: Note;
}
/**
 * Which frequencies it takes: a range and its step, or the choices.
 */
export interface FrequencyValues {
  /**
   * The frequencies that it has.
   */
  choices?: Frequency[];
  min?: Frequency;
  max?: Frequency;
  step?: Frequency;
  note?: Note;
}
/**
 * Which slopes it takes.
 */
export interface SlopeValues {
  /**
   * The slopes that it has.
   */
  choices: Slope[];
  note?: Note;
}
/**
 * One control that sets several filters together.
 */
export interface CrossoverControl {
  /**
   * The stages that it sets.
   *
   * Items: A stage.
   */
  sets: ('high_pass' | 'low_pass')[];
  kind?: FilterKind;
  frequency: FrequencyValues;
  slope?: SlopeValues;
  bypass?: CanBypass;
  note?: Note;
}
/**
 * How a delay is told to the device.
 */
export interface DelayControl {
  /**
   * As a `time`; as `samples` at the device's rate; as an `added_path` (a length of air); or as each loudspeaker's `own_distance`, from which the device works out the delays itself.
   */
  told_as: 'time' | 'samples' | 'added_path' | 'own_distance';
  speed_of_sound?: Speed;
  min?: Delay;
  max: Delay;
  step?: Delay;
  note?: Note;
}
/**
 * An all-pass, told as degrees at a frequency.
 */
export interface PhaseControl {
  /**
   * The positions that it has.
   */
  choices?: Phase[];
  min?: Phase;
  max?: Phase;
  step?: Phase;
  at: Frequency;
  note?: Note;
}
/**
 * Whether the signal can be turned over.
 */
export interface PolarityControl {
  /**
   * The positions that it has.
   *
   * Items: A position.
   */
  choices: ('normal' | 'inverted')[];
  note?: Note;
}
/**
 * How many bands there are, and what each takes.
 */
export interface EqControl {
  /**
   * How many bands it has.
   */
  bands: number;
  /**
   * The shapes that a band can have; left out: `bell` only.
   *
   * Items: A shape.
   */
  kinds?: ('bell' | 'low_shelf' | 'high_shelf' | 'notch')[];
  frequency: FrequencyValues;
  gain: GainValues;
  q: QValues;
  bypass?: CanBypass;
  note?: Note;
}
/**
 * Which gains it takes: a range and its step.
 */
export interface GainValues {
  min: Gain;
  max: Gain;
  step?: Difference;
  note?: Note;
}
/**
 * Which values of q it takes: a range and its step, or the choices.
 */
export interface QValues {
  /**
   * The values that it has.
   *
   * Items: A value of q.
   */
  choices?: number[];
  /**
   * The lowest value that it takes.
   */
  min?: number;
  /**
   * The highest value that it takes.
   */
  max?: number;
  /**
   * From one value to the next; left out: any value.
   */
  step?: number;
  note?: Note;
}
/**
 * What can be set on the limiter.
 */
export interface LimiterControl {
  threshold?: InputSensitivityControl;
  bypass?: CanBypass;
  note?: Note;
}
/**
 * A switch of its own, such as a tilt, a profile or a room setting: its positions, and what each does where it is known.
 */
export interface SwitchControl {
  /**
   * Its positions, named as the device names them.
   *
   * Items: A position.
   */
  choices: string[];
  /**
   * What a position does to the response: a response file for each, level in dB as it differs from the neutral position.
   */
  responses?: {
    [k: string]: File;
  };
  note?: Note;
}
/**
 * After which times without signal it can go to sleep.
 */
export interface StandbyControl {
  /**
   * The positions that it has.
   */
  choices: Standby[];
  note?: Note;
}
/**
 * What many rooms share: policies, the inventory, and where rooms and gear files are. `facility.yaml`; the nearest one upwards applies.
 */
export interface FacilityFile {
  /**
   * The kind of this file and the version of its format. It is the first key.
   */
  facility: 1;
  name?: Name;
  /**
   * Where the gear files are.
   */
  gear?: FilePattern[];
  /**
   * Where the room files are.
   */
  rooms?: FilePattern[];
  /**
   * What rooms of one kind have to keep to. A room names its policy; its own `targets` override it.
   */
  policies?: {
    [k: string]: Policy;
  };
  /**
   * The inventory: single pieces of gear. The same piece in use in two rooms is a finding.
   */
  items?: {
    [k: string]: Item;
  };
  /**
   * What every room is listened to with before it is signed off, in the facility's own words. At a moderate level: ears tire, and loud levels harm them.
   */
  listening?: {
    [k: string]: ListeningCheck;
  };
  note?: Note;
}
/**
 * What rooms of one kind have to keep to.
 */
export interface Policy {
  reference_level?: SoundLevel;
  /**
   * The loudspeaker layouts that these rooms may have.
   */
  layouts?: Layout[];
  recheck?: Period;
  curve?: Curve;
  tolerances?: Tolerances;
  severity?: Severities;
  note?: Note;
}
/**
 * One piece of gear.
 */
export interface Item {
  /**
   * Its model, by the name that a gear file gives it.
   */
  gear: string;
  serial?: Serial;
  note?: Note;
}
