// A room like those of the demo facility, kept apart from them so that tests of edits do not hang on what the demo teaches.

export const BASE: string = `room: 1
name: Bittern, mix room 9
policy: mix
surveyed: { date: 2026-10-12, by: R. Ames }

space:
  size: { width: 4.62 m, depth: 6.18 m ± 20 mm, height: 2.94 m }
  air: { temperature: 21.5 °C, humidity: 45 % }
  surfaces:
    floor: { material: carpet_on_concrete }
    ceiling: { absorption: { 63 Hz: 0.20, 125 Hz: 0.28, 250 Hz: 0.35, 500 Hz: 0.40, 1 kHz: 0.42 } }
    front: { material: gypsum_board_on_studs }
    back: { shares: { gypsum_board_on_studs: 40 %, porous_200mm: 60 % } }
    left: { material: gypsum_board_on_studs }
    right: { material: gypsum_board_on_studs }
  decay_time: { 63 Hz: 0.42 s, 125 Hz: 0.31 s, 250 Hz: 0.27 s, 500 Hz: 0.26 s, 1 kHz: 0.25 s, 2 kHz: 0.24 s }
  background_noise: { nr: 15 }
  fixtures:
    door: { kind: keep_clear, x: [0 m, 0.95 m], y: [4.90 m, 6.18 m], because: way out }
    desk: { kind: obstacle, x: [1.40 m, 3.20 m], y: [1.45 m, 2.10 m], z: [0 m, 0.75 m] }
    panel_left:
      kind: panel
      wall: left
      along: [1.10 m, 2.30 m]
      z: [0.60 m, 1.80 m]
      surface: { material: porous_100mm }
    panel_right:
      kind: panel
      wall: right
      along: [1.10 m, 2.30 m]
      z: [0.60 m, 1.80 m]
      surface: { material: porous_100mm }

seats:
  mix: { at: { x: 2.31 m, y: 2.44 m, z: 1.22 m }, role: reference }
  producer: { at: { x: 2.31 m, y: 3.90 m, z: 1.22 m } }

speakers:
  left: { gear: heath_6, channel: L, at: { x: 1.26 m, y: 0.62 m, z: 1.22 m }, aim: mix }
  right: { gear: heath_6, channel: R, at: { x: 3.36 m, y: 0.62 m, z: 1.22 m }, aim: mix }

subwoofers:
  sub: { item: moor_a, at: { x: 1.75 m, y: 0.62 m, z: 0.25 m } }

devices:
  desk: { gear: quay_8 }

wiring:
  - desk.main_left -> sub.in_left
  - desk.main_right -> sub.in_right
  - sub.out_left -> left.in
  - sub.out_right -> right.in

circuits:
  tech: { rating: 16 A, voltage: 230 V, feeds: [desk, sub, left, right] }

settings:
  left: { level: -6 dB, tilt: flat }
  right: { level: -6 dB, tilt: flat }
  sub:
    input_sensitivity: 18 dBu
    crossover: { frequency: 75 Hz, slope: 24 dB/oct }
    phase: 90°
    polarity: inverted
    level: -3.25 dB
    ports:
      driver: { delay: 1.00 ms }
      out_left: { delay: 0 ms }
      out_right: { delay: 0 ms }
    standby: off

targets:
  layout: 0+2+0
  reference_level: 79 dBC
  monitor_control: { position: "-18", note: marked with tape }
  curve: { flat: true }

sessions:
  autumn:
    date: 2026-11-03
    takes:
      both_mix: { file: measurements/heron-both-mix.txt, drive: L, sounding: [left, sub], seat: mix, timing: none }

signed_off: { date: 2026-11-04, by: R. Ames, recheck: 12 months }
`;
