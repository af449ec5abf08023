// Setups made by hand for tests of what is shown: plausible rooms whose figures are chosen, not worked out, so that a test
// of the sheet fails for the sheet's faults only.

import type { Finding } from '../../core/finding.ts';
import { noisePart } from '../../core/parts/backgroundNoise.ts';
import type { CrossoverOutcome, ModeFigures, SettingAdvice, Setup } from '../../core/setup.ts';
import type { Gear, GearKind } from '../../schema/model/gear.ts';
import type { PlanShape, Room, SettingValue, Speaker } from '../../schema/model/room.ts';

const DEGREE = Math.PI / 180;

/** A stereo room with one subwoofer that filters the mains: metric, mostly sound, a few findings. */
export function stereoSetup(): Setup {
  const room = stereoRoom();
  return {
    room,
    background: noisePart(room).background,
    air: {
      temperature_k: 294.65,
      relativeHumidity: 0.45,
      pressure_pa: 101325,
      assumed: false,
      speedOfSound_m_s: 344.6,
      density_kg_m3: 1.192,
      speedChangePer5K_m_s: 2.9,
      source: 'chosen for a test',
    },
    space: {
      volume_m3: 83.9,
      floorArea_m2: 28.6,
      surfaceArea_m2: 120.6,
      decayTime: {
        decayTime_s: 0.27,
        from: 'measured',
        bands: [
          { frequency_hz: 63, decayTime_s: 0.42 },
          { frequency_hz: 250, decayTime_s: 0.27 },
        ],
      },
      schroeder_hz: 113,
      modes: boxModes(4.62, 6.18, 2.94),
      modeCount: { limit_hz: 200, exact: 118, formula: 116.3 },
      modeDensityAt100Hz_per_hz: 0.6,
      coincidences: [
        {
          frequency_hz: 111.5,
          orders: [
            [0, 4, 0],
            [3, 0, 0],
          ],
        },
      ],
      bonello: {
        bands: [
          { frequency_hz: 31.5, count: 1, falls: false, coincident: false },
          { frequency_hz: 40, count: 1, falls: false, coincident: false },
          { frequency_hz: 50, count: 2, falls: false, coincident: false },
          { frequency_hz: 63, count: 3, falls: false, coincident: true },
        ],
        risesThroughout: true,
        coincidencesCovered: false,
      },
      proportions: {
        ratio: [1, 1.57, 2.1],
        walker: { lower: 1.73, lengthOverHeight: 2.1, upper: 3.07, passes: true },
        nearIntegers: [{ sides: 'depth : height', ratio: 2.1 }],
        nearestNamed: { name: 'Sepmeyer C', ratio: [1, 1.6, 2.33], off: 0.1 },
      },
      nominalDecayTime_s: 0.24,
    },
    referenceSeat: 'mix',
    seats: [
      {
        id: 'mix',
        arrivals: [
          arrival('left', 2.1, 6.094, 1.9, 0, 8.07, 0),
          arrival('right', 2.1, 6.094, 1.9, 0, 8.07, 1),
          arrival('sub', 2.141, 6.213, 0.8, 1, 0, 2),
        ],
        angles: [
          { source: 'left', azimuth_rad: 30 * DEGREE, elevation_rad: 0 },
          { source: 'right', azimuth_rad: -30 * DEGREE, elevation_rad: 0 },
          { source: 'sub', azimuth_rad: 17.1 * DEGREE, elevation_rad: -26.9 * DEGREE },
        ],
      },
      {
        id: 'producer',
        arrivals: [
          arrival('left', 3.444, 9.994, 1.9, 0, null, null),
          arrival('right', 3.444, 9.994, 1.9, 0, null, null),
          arrival('sub', 3.466, 10.058, null, 1, null, null),
        ],
        angles: [],
      },
    ],
    signalPaths: [
      signalPath('main_left', 'L', 'left', [0, 2]),
      signalPath('main_right', 'R', 'right', [1, 3]),
      { ...signalPath('main_left', 'L', 'sub', [0]), inverted: false, delay_s: 0.001 },
      { ...signalPath('main_right', 'R', 'sub', [1]), latency_s: null },
    ],
    crossovers: [
      {
        device: 'sub',
        set: null,
        path: ['settings', 'sub', 'crossover'],
        mains: ['left', 'right'],
        subs: ['sub'],
        mainsMinus6db_hz: 48,
        current: outcome(75, 24, 'normal', 3.2, -2.1),
        bypassed: false,
        practice: outcome(50, 24, 'inverted', 6.4, -5.2),
        ranked: [outcome(85, 24, 'normal', 1.3, -0.8), outcome(70, 12, 'inverted', 2.2, -1.5)],
        caveat:
          'Starting values: the gear files give no phase, -6 dB points alone. Measure, then settle.',
      },
    ],
    layouts: [
      {
        layout: '0+2+0',
        set: null,
        seat: 'mix',
        positions: [
          layoutPosition('M+030', 'L', 'left', 30, true),
          layoutPosition('M-030', 'R', 'right', -30, true),
        ],
        baseWidth_m: 2.1,
        listeningDistance_m: 2.1,
        source: 'ITU-R BS.2051-3, system A',
      },
    ],
    boundaries: [
      boundary('left', [
        ['left', 1.26, 68],
        ['front', 0.62, 139],
        ['floor', 1.22, 71],
      ]),
      boundary('right', [
        ['right', 1.26, 68],
        ['front', 0.62, 139],
        ['floor', 1.22, 71],
      ]),
      {
        ...boundary('sub', [
          ['floor', 0.25, 345],
          ['front', 0.62, 139],
        ]),
        powerGainAt40Hz_db: 8.4,
      },
    ],
    placement: [
      {
        source: 'sub',
        fromWidthMidline_m: -0.56,
        fromDepthMidline_m: -2.47,
        fromCorner_m: 1.86,
        behindMains_m: 0,
      },
    ],
    levels: {
      connections: [
        { connection: 0, fromFull_v: 6.16, toFull_v: 6.16, margin_db: 0 },
        { connection: 2, fromFull_v: 6.16, toFull_v: 3.08, margin_db: -6.02 },
      ],
      reference: {
        stated_db: 79,
        weighting: 'C',
        from: 'room',
        byChannelCount_dba: 82,
        byVolume_db: 78,
        channelCount: 2,
      },
      bass: [{ sub: 'sub', channels: ['L', 'R'], lfe: false, coherentSum_db: 6.02 }],
      lfe: null,
      exposure: { level_dba: 79, hours: 32 },
    },
    power: {
      up: [
        { ids: ['desk'], reason: 'a source, fed by nothing' },
        { ids: ['sub'], reason: 'before what it feeds' },
        { ids: ['left', 'right'], reason: 'last: nothing thumps into them any more' },
      ],
      down: [
        { ids: ['left', 'right'], reason: 'first: silent before anything else goes off' },
        { ids: ['sub'], reason: 'after what it feeds' },
        { ids: ['desk'], reason: 'last' },
      ],
      circuits: [
        {
          circuit: 'tech',
          rated_a: 16,
          idle_w: 95,
          load_a: 2.9,
          inrush_a: 78,
          share: 0.18,
          unknown: ['desk'],
        },
      ],
    },
    advice: adviceList(),
    cautions: [
      'Mains wiring and rigging belong to licensed people and local codes.',
      'Test signals: people out or protected, monitor control down, start 20 dB below reference.',
    ],
    findings: findingList(),
    notes: [
      {
        path: ['seats', 'producer'],
        message: 'No arrival of sub: the latency of desk.main_right is not recorded.',
      },
    ],
  };
}

/** The same room with every text of the file hostile: what is shown must be text and nothing else. */
export function hostileSetup(): Setup {
  const setup = stereoSetup();
  const bad = '<script>alert("&")</script>';
  return {
    ...setup,
    room: {
      ...setup.room,
      name: bad,
      notes: [{ path: ['speakers', bad], text: bad }],
      signedOff: { date: bad, by: bad, setup: bad, recheck_months: 12 },
      targets: { ...setup.room.targets, monitorControl: { position: bad } },
    },
    cautions: [bad],
    findings: setup.findings.map((finding) => ({ ...finding, message: bad, reason: bad })),
    notes: [{ path: [bad], message: bad }],
    advice: setup.advice.map((advice) => ({ ...advice, told: bad, dialIn: bad, reason: bad })),
  };
}

/** An L-shaped room under a sloped ceiling, figures in feet, nothing wired: most parts have nothing to say. */
export function emptyPlanSetup(): Setup {
  const setup = stereoSetup();
  const shape: PlanShape = {
    kind: 'plan',
    walls: [
      { name: 'front', x_m: 0, y_m: 0 },
      { name: 'right', x_m: 4.2, y_m: 0 },
      { name: 'niche_front', x_m: 4.2, y_m: 3.5 },
      { name: 'niche_right', x_m: 6, y_m: 3.5 },
      { name: 'back', x_m: 6, y_m: 5.8 },
      { name: 'left', x_m: 0, y_m: 5.8 },
    ],
    ceiling: { height_m: 2.55, slopeX: 0, slopeY: 0.5 / 5.8 },
  };
  return {
    ...setup,
    room: {
      ...setup.room,
      name: null,
      habits: { length: 'feet', temperature: 'fahrenheit', mass: 'pound' },
      space: { ...setup.room.space, shape, fixtures: [] },
      subwoofers: [],
      devices: [],
      wiring: [],
      settings: [],
      signedOff: null,
    },
    space: setup.space === null ? null : { ...setup.space, modes: null, bonello: null },
    referenceSeat: null,
    seats: [],
    signalPaths: [],
    crossovers: [],
    layouts: [],
    boundaries: [],
    placement: [],
    power: { up: [], down: [], circuits: [] },
    advice: [],
    findings: [],
    levels: { ...setup.levels, connections: [], bass: [], exposure: null },
  };
}

/** A room of which nothing could be read but its name. */
export function bareSetup(): Setup {
  const setup = emptyPlanSetup();
  return {
    ...setup,
    room: {
      ...setup.room,
      name: 'Bare',
      seats: [],
      speakers: [],
      space: { ...setup.room.space, shape: null, backgroundNoise: null, decayTime_s: null },
      notes: [],
    },
    background: null,
    space: null,
    cautions: [],
    notes: [{ path: ['space', 'size'], message: 'The size is not recorded.' }],
  };
}

function stereoRoom(): Room {
  return {
    name: 'Plover, mix room',
    space: {
      shape: { kind: 'box', width_m: 4.62, depth_m: 6.18, height_m: 2.94 },
      surfaces: [],
      decayTime_s: { frequency_hz: [63, 250], value: [0.42, 0.27] },
      backgroundNoise: { nr: 15 },
      fixtures: [
        {
          id: 'door',
          kind: 'keep_clear',
          x_m: [0, 0.95],
          y_m: [4.9, 6.18],
          z_m: null,
          because: 'way out',
        },
        {
          id: 'desk_top',
          kind: 'obstacle',
          x_m: [1.4, 3.2],
          y_m: [1.45, 2.1],
          z_m: [0, 0.75],
          because: null,
        },
        {
          id: 'panel_left',
          kind: 'panel',
          wall: 'left',
          along_m: [1.1, 2.3],
          z_m: [0.6, 1.8],
          covering: null,
        },
      ],
    },
    air: {
      temperature_k: 294.65,
      relativeHumidity: 0.45,
      pressure_pa: null,
      speedOfSound_m_s: null,
    },
    seats: [
      { id: 'mix', at: at(2.31, 2.44, 1.22), isReference: true, role: 'reference' },
      { id: 'producer', at: at(2.31, 3.9, 1.22), isReference: false, role: null },
    ],
    speakers: [
      speaker('left', 'heath_6', 'L', 1.26, 0.62, 1.22),
      speaker('right', 'heath_6', 'R', 3.36, 0.62, 1.22),
    ],
    subwoofers: [{ ...speaker('sub', 'moor_12', null, 1.75, 0.62, 0.25), aim: null }],
    devices: [{ id: 'desk', gear: gear('quay_8', 'interface'), gearId: 'quay_8', channels: [] }],
    wiring: [
      connection(0, 'desk', 'main_left', 'sub', 'in_left'),
      connection(1, 'desk', 'main_right', 'sub', 'in_right'),
      connection(2, 'sub', 'out_left', 'left', 'in'),
      connection(3, 'sub', 'out_right', 'right', 'in'),
    ],
    circuits: [
      { id: 'tech', rating_a: 16, voltage_v: 230, feeds: ['desk', 'sub', 'left', 'right'] },
    ],
    settings: [
      {
        device: 'sub',
        sampleRate_hz: null,
        values: [
          {
            ...setting('crossover', '{ frequency: 75 Hz, slope: 24 dB/oct }'),
            kind: 'filter',
            frequency_hz: 75,
            slope_db_oct: 24,
          },
          { ...setting('polarity', 'normal'), kind: 'choice', choice: 'normal' },
          { ...setting('level', '-3.25 dB'), kind: 'level', level_db: -3.25 },
          {
            ...setting('eq', '{ band_1: … }'),
            kind: 'eq',
            bands: [{ name: 'band_1', frequency_hz: 41, gain_db: -4.5, q: 4.2 }],
          },
          { ...setting('standby', 'off'), kind: 'choice', choice: 'off' },
        ],
      },
    ],
    sets: [],
    targets: {
      layout: '0+2+0',
      referenceLevel: { level_db: 79, weighting: 'C' },
      monitorControl: { position: '-18' },
      curve: { frequency_hz: [], value: [] },
    },
    policy: {
      id: 'mix',
      layouts: ['0+2+0'],
      referenceLevel: null,
      recheck_months: 12,
      tolerances: {},
      severity: {},
    },
    accepted: [],
    signedOff: null,
    gaps: [],
    plusMinus: { 'space.size.depth': 0.02 },
    notes: [{ path: ['targets', 'monitor_control'], text: 'marked with tape' }],
    habits: { length: 'metre', temperature: 'celsius', mass: 'kilogram' },
  };
}

function at(x_m: number, y_m: number, z_m: number): NonNullable<Room['seats'][number]['at']> {
  return { x_m, y_m, z_m };
}

function speaker(
  id: string,
  gearId: string,
  channel: string | null,
  x_m: number,
  y_m: number,
  z_m: number,
): Speaker {
  const isSub = channel === null;
  return {
    id,
    gear: {
      ...gear(gearId, isSub ? 'subwoofer' : 'loudspeaker'),
      size: isSub
        ? { width_m: 0.4, depth_m: 0.44, height_m: 0.42 }
        : { width_m: 0.22, depth_m: 0.3, height_m: 0.36 },
    },
    gearId,
    item: null,
    channel,
    at: at(x_m, y_m, z_m),
    aim: 'mix',
    flushIn: null,
  };
}

function gear(id: string, kind: GearKind): Gear {
  return {
    id,
    kind,
    maker: null,
    size: null,
    mass_kg: null,
    lowEnd: null,
    highEnd: null,
    maxLevel: null,
    fullLevelInput_v: null,
    fullLevelOutput_v: null,
    gain_db: null,
    power: null,
    latency_s: [],
    sampleRate_hz: null,
    inputs: [],
    outputs: [],
    buses: [],
    paths: [],
    controls: [],
  };
}

function connection(
  index: number,
  fromDevice: string,
  fromPort: string,
  toDevice: string,
  toPort: string,
): Room['wiring'][number] {
  return {
    index,
    from: { device: fromDevice, port: fromPort },
    to: { device: toDevice, port: toPort },
  };
}

function setting(
  control: string,
  told: string,
): Pick<SettingValue, 'control' | 'port' | 'set' | 'path' | 'told'> {
  return { control, port: null, set: null, path: ['settings', 'sub', control], told };
}

function arrival(
  source: string,
  distance_m: number,
  flight_ms: number,
  latency_ms: number | null,
  delay_ms: number,
  needed_ms: number | null,
  adviceIndex: number | null,
): Setup['seats'][number]['arrivals'][number] {
  const arrival_s = latency_ms === null ? null : (flight_ms + latency_ms + delay_ms) / 1000;
  return {
    source,
    distance_m,
    flight_s: flight_ms / 1000,
    pathLatency_s: latency_ms === null ? null : latency_ms / 1000,
    pathDelay_s: delay_ms / 1000,
    arrival_s,
    early_s: arrival_s === null ? null : Math.max(0, 0.008013 - arrival_s),
    neededDelay_s: needed_ms === null ? null : needed_ms / 1000,
    adviceIndex,
  };
}

function signalPath(
  port: string,
  channel: string,
  target: string,
  connections: readonly number[],
): Setup['signalPaths'][number] {
  return {
    source: { device: 'desk', port },
    channel,
    target,
    stages: [],
    connections,
    latency_s: 0.0019,
    delay_s: 0,
    gain_db: -6,
    inverted: false,
  };
}

/** Curves of a plain shape, so that something is drawn. */
function outcome(
  frequency_hz: number,
  slope_db_oct: number,
  polarity: 'normal' | 'inverted',
  ripple_db: number,
  dip_db: number,
): CrossoverOutcome {
  const grid_hz = Array.from({ length: 121 }, (_, index) => 20 * 2 ** (index / 30));
  const order = slope_db_oct / 6;
  const low = grid_hz.map((f) => -10 * Math.log10(1 + (f / frequency_hz) ** (2 * order)));
  const high = grid_hz.map((f) => -10 * Math.log10(1 + (frequency_hz / f) ** (2 * order)));
  return {
    filter: { frequency_hz, slope_db_oct, family: 'linkwitz_riley' },
    polarity,
    subDelay_s: 0.0012,
    ripple_db,
    dip: { frequency_hz: frequency_hz * 0.9, level_db: dip_db },
    bump: { frequency_hz: frequency_hz * 1.5, level_db: ripple_db + dip_db },
    phaseAtCrossover_rad: 24 * DEGREE,
    worstPhase_rad: -71 * DEGREE,
    overlap_hz: [frequency_hz / 1.4, frequency_hz * 1.4],
    curve: {
      frequency_hz: grid_hz,
      main_db: high,
      sub_db: low,
      sum_db: grid_hz.map((f) => dip_db * Math.exp(-((Math.log2(f / frequency_hz) * 2) ** 2))),
    },
    reasons: [`the sum stays within ${ripple_db.toFixed(1)} dB`],
  };
}

function layoutPosition(
  label: string,
  channel: string,
  speakerId: string,
  azimuth_deg: number,
  fits: boolean,
): Setup['layouts'][number]['positions'][number] {
  return {
    label,
    channel,
    speaker: speakerId,
    azimuth_rad: azimuth_deg * DEGREE,
    elevation_rad: 0,
    wantAzimuth_rad: [azimuth_deg * DEGREE, azimuth_deg * DEGREE],
    wantElevation_rad: [0, 0],
    fits,
  };
}

function boundary(
  source: string,
  surfaces: readonly (readonly [string, number, number])[],
): Setup['boundaries'][number] {
  return {
    source,
    surfaces: surfaces.map(([surface, distance_m, quarterWave_hz]) => ({
      surface,
      distance_m,
      quarterWave_hz,
    })),
    reflections: [
      {
        surface: 'floor',
        pathDifference_m: 1.12,
        behind_s: 0.00325,
        level_db: -3.7,
        notch_hz: 154,
        depth_db: -8.5,
      },
    ],
    powerGainAt40Hz_db: null,
  };
}

function adviceList(): readonly SettingAdvice[] {
  const base = {
    device: 'sub',
    set: null,
    source: 'geometry',
    residual_s: null,
    residualPhase_rad: null,
    fix: null,
  };
  return [
    {
      ...base,
      control: 'delay',
      port: 'out_left',
      path: ['settings', 'sub', 'ports', 'out_left', 'delay'],
      told: '0 ms',
      exact: '0.02 ms',
      dialIn: '0 ms',
      agrees: true,
      residual: '-0.02 ms, 0.5° at 75 Hz',
      residual_s: -0.00002,
      reason: 'left and sub arrive together at mix',
      standing: 'start',
    },
    {
      ...base,
      control: 'delay',
      port: 'out_right',
      path: ['settings', 'sub', 'ports', 'out_right', 'delay'],
      told: '0.40 ms',
      exact: '0.02 ms',
      dialIn: '0 ms',
      agrees: false,
      residual: '-0.02 ms, 0.5° at 75 Hz',
      residual_s: -0.00002,
      reason: 'right and sub arrive together at mix',
      standing: 'start',
      fix: {
        title: 'Dial in 0 ms at out_right of sub',
        edits: [
          { do: 'set', path: ['settings', 'sub', 'ports', 'out_right', 'delay'], value: '0 ms' },
        ],
        safe: true,
      },
    },
    {
      ...base,
      control: 'phase',
      port: null,
      path: ['settings', 'sub', 'phase'],
      told: null,
      exact: '0°',
      dialIn: '0°',
      agrees: null,
      residual: null,
      reason: 'the delay does the work',
      standing: 'computed',
    },
  ];
}

function findingList(): readonly Finding[] {
  const base = {
    measured: null,
    limit: null,
    related: [],
    fixes: [],
    accepted: null,
    reason: 'The sum has a hole where two arrivals differ.',
    advice: 'Dial in the computed delay.',
    source: 'common practice, no source',
  };
  return [
    {
      ...base,
      code: 'delay/differs',
      severity: 'error',
      path: ['settings', 'sub', 'ports', 'out_right', 'delay'],
      message: 'right waits 0.40 ms too long',
    },
    {
      ...base,
      code: 'levels/clip',
      severity: 'warning',
      path: ['wiring', '2'],
      message: 'sub.out_left can overload left.in by 6.0 dB',
    },
    {
      ...base,
      code: 'layout/height',
      severity: 'information',
      path: ['speakers', 'right', 'at'],
      message: 'right stands -60 mm from ear height',
      accepted: { id: 'right_shelf', because: 'shelf fixed, landlord', until: '2027-06-30' },
    },
  ];
}

/** By the textbook's formula, f = c/2 √((nx/W)² + (ny/D)² + (nz/H)²), strengths from the cosine shapes at two places. */
function boxModes(width_m: number, depth_m: number, height_m: number): readonly ModeFigures[] {
  const modes: ModeFigures[] = [];
  for (let nx = 0; nx < 8; nx += 1)
    for (let ny = 0; ny < 8; ny += 1)
      for (let nz = 0; nz < 8; nz += 1) {
        const frequency_hz = (344.6 / 2) * Math.hypot(nx / width_m, ny / depth_m, nz / height_m);
        const set = [nx, ny, nz].filter((n) => 0 < n).length;
        if (set === 0 || 200 < frequency_hz) continue;
        const strength = (x: number, y: number, z: number): number =>
          Math.abs(
            Math.cos((nx * Math.PI * x) / width_m) *
              Math.cos((ny * Math.PI * y) / depth_m) *
              Math.cos((nz * Math.PI * z) / height_m),
          );
        modes.push({
          frequency_hz,
          order: [nx, ny, nz],
          kind: set === 1 ? 'axial' : set === 2 ? 'tangential' : 'oblique',
          decayTime_s: 0.3,
          bandwidth_hz: 7.3,
          drivenBy: [{ source: 'sub', strength: strength(1.75, 0.62, 0.25) }],
          heardAt: [
            { seat: 'mix', strength: strength(2.31, 2.44, 1.22) },
            { seat: 'producer', strength: strength(2.31, 3.9, 1.22) },
          ],
        });
      }
  return modes.sort((one, other) => one.frequency_hz - other.frequency_hz);
}
