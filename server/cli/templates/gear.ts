// The text that `groundbass new gear` writes: a loudspeaker, a subwoofer and an interface to fill in from their data sheets.

export const GEAR_TEMPLATE = `# Models of gear: what they can do and which settings they offer. Fill in from the data sheet; leave out what it does not say.
gear: 1
models:
  my_speaker:
    kind: loudspeaker
    low_end: { minus_6_db: 50 Hz, slope: 24 dB/oct, kind: vented }
    latency: 0 ms
    inputs: [in]
    paths: [in -> level -> driver]
    controls:
      level: { min: -12 dB, max: 6 dB, step: 0.5 dB }
  my_sub:
    kind: subwoofer
    low_end: { minus_6_db: 25 Hz, slope: 24 dB/oct, kind: vented }
    latency: 0 ms
    inputs: [in_left, in_right]
    outputs: [out_left, out_right]
    buses: { bass: { sum: -6 dB } }
    # The signal's ways through it: from a port or bus, stage after stage, to a port, a bus or the driver.
    paths:
      - in_left -> high_pass -> delay -> out_left
      - in_right -> high_pass -> delay -> out_right
      - in_left -> low_pass -> bass
      - in_right -> low_pass -> bass
      - bass -> delay -> polarity -> level -> driver
    controls:
      crossover: { sets: [high_pass, low_pass], kind: linkwitz_riley, frequency: { min: 50 Hz, max: 120 Hz, step: 5 Hz }, slope: { choices: [24 dB/oct] }, bypass: true }
      each_port: { delay: { told_as: time, step: 0.1 ms, max: 20 ms } }
      polarity: { choices: [normal, inverted] }
      level: { min: -20 dB, max: 6 dB, step: 0.5 dB }
  my_interface:
    kind: interface
    latency: 0 ms
    outputs: [main_left, main_right]
`;
