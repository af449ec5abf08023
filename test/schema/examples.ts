// A valid file of each kind that has every part of the format in it (invented; the settings are an example, not advice).

export const ROOM = `room: 1
name: Heron, mix room 2
policy: mix
surveyed: { date: 2026-10-12, by: R. Ames }

space:
  size: { width: 4.62 m, depth: 6.18 m ± 20 mm, height: 2.94 m }   # or plan + height or ceiling, see below
  air: { temperature: 21.5 °C, humidity: 45 % }                    # or { speed_of_sound: 343.2 m/s }
  surfaces:
    floor: { material: carpet_on_concrete }
    ceiling: { absorption: { 63 Hz: 0.20, 125 Hz: 0.28, 250 Hz: 0.35 } }
    front: { material: gypsum_board_on_studs }
    back: { shares: { gypsum_board_on_studs: 40 %, porous_200mm: 60 % } }
    left: { material: gypsum_board_on_studs }
    right: { admittance: 0.02 }                     # specific wall admittance, for experts; may be complex: { real: 0.02, imaginary: 0.1 }
  decay_time: { 63 Hz: 0.42 s, 125 Hz: 0.31 s, 250 Hz: 0.27 s, 500 Hz: 0.26 s }   # measured
  background_noise: { nr: 15 }
  fixtures:
    door: { kind: keep_clear, x: [0 m, 0.95 m], y: [4.90 m, 6.18 m], because: way out }
    desk: { kind: obstacle, x: [1.40 m, 3.20 m], y: [1.30 m, 2.00 m], z: [0 m, 0.75 m] }
    panel_1: { kind: panel, wall: left, along: [1.10 m, 2.30 m], z: [0.60 m, 1.80 m], surface: { material: porous_100mm } }

seats:
  mix: { at: { x: 2.31 m, y: 2.32 m, z: 1.22 m }, role: reference }
  producer: { at: { x: 2.31 m, y: 3.90 m, z: 1.22 m } }

speakers:
  left: { gear: heath_6, channel: L, at: { x: 1.38 m, y: 0.86 m, z: 1.22 m }, aim: mix }
  right: { gear: heath_6, channel: R, at: { x: 3.24 m, y: 0.86 m, z: 1.22 m }, aim: mix }   # mount: { flush_in: front } for one built into a wall

subwoofers:
  sub: { item: moor_a, at: { x: 1.90 m, y: 0.55 m, z: 0.25 m } }       # which channels' bass it carries follows from the wiring

devices:
  desk: { gear: quay_8 }

wiring:
  - desk.main_left -> sub.in_left
  - desk.main_right -> sub.in_right
  - sub.out_left -> left.in
  - sub.out_right -> right.in
  # network audio routes by channel: desk.net.12 -> sub.net ; the physical runs are in \`cables\`

circuits:
  tech: { rating: 16 A, voltage: 230 V, feeds: [desk, sub, left, right] }

settings:                         # exactly what is dialled in: for a device, for one of its ports, for one of the sets
  sub:
    input_sensitivity: 10 dBu
    crossover: { frequency: 75 Hz, slope: 24 dB/oct }        # or: bypass
    polarity: inverted
    level: -3.25 dB
    ports:
      driver: { delay: 0.15 ms, eq: { band_1: { frequency: 41 Hz, gain: -4.5 dB, q: 4.2 } } }
      out_left: { delay: 0 ms }
      out_right: { delay: 0 ms }
    standby: off

targets:
  layout: 0+2+0                   # a layout of ITU-R BS.2051
  reference_level: 79 dBC
  monitor_control: { position: "-18", note: marked with tape }
  curve: { flat: true }           # or { points: { 20 Hz: 2 dB, 200 Hz: 0 dB, 10 kHz: -2 dB } }

sessions:                         # measurements, tied to the set-up they were taken in
  autumn_2026:
    date: 2026-11-03
    setup: s-7f3a9c21             # fingerprint of geometry, gear and settings, put in by the tool; a later edit shows as out of date
    air: { temperature: 22.0 °C }
    microphone: { correction: mics/m1-0deg.txt, serial: "00417" }
    takes:
      sub_mix: { file: measurements/sub-mix.wav, drive: L, sounding: [sub], seat: mix, bypassed: [eq], timing: loopback }
      left_mix: { file: measurements/left-mix.txt, drive: L, sounding: [left], seat: mix }
      spot_a: { file: measurements/spot-a.wav, drive: L, sounding: [sub], at: { x: 2.00 m, y: 2.50 m, z: 1.22 m } }
    averages:
      area: { takes: [sub_mix, spot_a], by: power }

alternatives:                     # considered, not built: an overlay of the same shape; the value \`absent\` takes a thing away
  by_window:
    because: less spread between seats
    change:
      subwoofers: { sub: { at: { x: 0.62 m, y: 0.55 m, z: 0.25 m } } }

accepted:
  right_shelf: { finding: layout/height, about: speakers.right, because: "shelf fixed, landlord", until: 2027-06-30 }

listening:
  kick_and_bass: { play: own drum and bass loop, listen_for: one note not louder than the next, level: 79 dBC, result: good, date: 2026-11-04, by: R. Ames }

signed_off: { date: 2026-11-04, by: R. Ames, setup: s-7f3a9c21, recheck: 12 months }
`;

export const PLAN_ROOM = `room: 1
space:
  plan:
    front: { x: 0 m, y: 0 m }
    right: { x: 2.40 m, y: 0 m }
    back: { x: 2.20 m, y: 6.10 m ± 20 mm }
    left: { x: 0.20 m, y: 6.10 m }
  ceiling: { front: 2.60 m, back: 3.10 m }    # or height: 2.94 m ; { left, right }; any plane: { front_left, front_right, back_left }
`;

export const SETS_ROOM = `room: 1
sets:
  far: { speakers: [far_left, far_right], subwoofers: [sub], layout: 0+2+0 }
  near: { speakers: [near_left, near_right], subwoofers: [sub], layout: 0+2+0 }
settings:
  controller: { crossover: { frequency: 80 Hz, slope: 24 dB/oct }, sets: { far: { crossover: { frequency: 60 Hz, slope: 24 dB/oct } } } }
  proc:
    sample_rate: 48 kHz
    ports:
      out_1: { high_pass: { frequency: 80 Hz, slope: 24 dB/oct }, delay: 60 samples, level: -2.0 dB }
      out_3: { low_pass: { frequency: 80 Hz, slope: 24 dB/oct }, delay: 0 samples }
`;

export const GEAR = `gear: 1
models:
  heath_6:
    kind: loudspeaker
    maker: Placeholder Audio
    size: { width: 220 mm, depth: 300 mm, height: 360 mm }
    mass: 9 kg
    low_end: { minus_6_db: 48 Hz, slope: 24 dB/oct, kind: vented }     # or { response: heath-6.txt } with phase: only that makes phase trustworthy
    max_level: { at: 1 m, space: full, peak: { 63 Hz: 98 dB, 125 Hz: 106 dB, 1 kHz: 110 dB } }
    full_level_input: 18 dBu
    power: { idle: 15 W, rated: 80 W, inrush: 20 A }
    latency: 1.1 ms
    inputs: [in]
    paths: [in -> level -> tilt -> driver]
    controls:
      level: { min: -20 dB, max: 0 dB, step: 0.5 dB }
      tilt: { choices: [flat, desk, wall] }          # a switch: its effect may be given as a response file each
  moor_12:
    kind: subwoofer
    mass: 31 kg
    low_end: { minus_6_db: 21 Hz, slope: 24 dB/oct, kind: vented, protection: { frequency: 18 Hz, slope: 24 dB/oct } }
    high_end: { minus_6_db: 150 Hz, slope: 12 dB/oct }
    max_level: { at: 1 m, space: half, peak: { 25 Hz: 104 dB, 40 Hz: 114 dB, 80 Hz: 116 dB } }
    latency: { driver: 0.8 ms, out_left: 0.8 ms, out_right: 0.8 ms }
    inputs: [in_left, in_right, in_lfe]
    outputs: [out_left, out_right]
    buses: { bass: { sum: -6 dB } }                  # what two equal inputs are turned down by before they are added
    paths:                                           # the same arrow as in wiring: stage after stage, port to port
      - in_left -> input_sensitivity -> high_pass -> delay -> out_left
      - in_right -> input_sensitivity -> high_pass -> delay -> out_right
      - in_left -> input_sensitivity -> low_pass -> bass
      - in_right -> input_sensitivity -> low_pass -> bass
      - in_lfe -> lfe_gain -> lfe_low_pass -> bass
      - bass -> eq -> phase -> delay -> polarity -> level -> driver
    controls:
      input_sensitivity: { choices: [4 dBu, 10 dBu, 18 dBu] }          # input for full output
      crossover: { sets: [high_pass, low_pass], kind: linkwitz_riley, frequency: { min: 40 Hz, max: 130 Hz, step: 5 Hz }, slope: { choices: [12 dB/oct, 24 dB/oct] }, bypass: true }
      lfe_gain: { choices: [0 dB, 10 dB] }
      lfe_low_pass: { frequency: { choices: [120 Hz] }, slope: { choices: [24 dB/oct] }, bypass: true }
      each_port: { delay: { told_as: time, step: 0.05 ms, max: 25 ms } }
      phase: { choices: [0°, 90°], at: 80 Hz }       # an all-pass, told as degrees at a frequency; many subs have this and no delay
      polarity: { choices: [normal, inverted] }
      level: { min: -30 dB, max: 10 dB, step: 0.25 dB }
      eq: { bands: 5, frequency: { min: 18 Hz, max: 250 Hz, step: 0.5 Hz }, gain: { min: -15 dB, max: 3 dB, step: 0.25 dB }, q: { min: 0.5, max: 12, step: 0.1 } }
      standby: { choices: [off, 30 min, 4 h] }
`;

export const FACILITY = `facility: 1
name: Larkfield Post (invented)
gear: ["gear/*.gear.yaml"]
rooms: ["rooms/*.room.yaml"]
policies:
  mix: { reference_level: 79 dBC, layouts: [0+2+0, 0+5+0], recheck: 12 months, tolerances: { height: 50 mm, pair_level: 0.5 dB }, severity: { layout/height: warning } }
items:
  moor_a: { gear: moor_12, serial: "00417" }      # the same item active in two rooms is a finding
`;

export const ALL = [
  { kind: 'room', name: 'room', text: ROOM },
  { kind: 'room', name: 'room with a plan', text: PLAN_ROOM },
  { kind: 'room', name: 'room with sets', text: SETS_ROOM },
  { kind: 'gear', name: 'gear', text: GEAR },
  { kind: 'facility', name: 'facility', text: FACILITY },
] as const;
