// The text that `groundbass new room` writes: a small stereo room whose comments teach the format.

export const ROOM_TEMPLATE = `# A room file. Every quantity carries its unit; what can be computed is never written down, it is shown.
room: 1
name: "My room"

# The origin is the front wall's left corner on the floor: x to the right, y towards the back, z up.
space:
  size: { width: 4.20 m, depth: 5.60 m, height: 2.70 m }
  air: { temperature: 21 °C, humidity: 45 % }
  # Decay times, once they are measured:
  # decay_time: { 63 Hz: 0.40 s, 125 Hz: 0.30 s, 250 Hz: 0.25 s, 500 Hz: 0.25 s }

seats:
  mix: { at: { x: 2.10 m, y: 2.10 m, z: 1.20 m }, role: reference }

# \`at\` is the acoustic centre. \`unknown\` says that it was looked at and not settled;
# gear models come from *.gear.yaml files (see \`groundbass new gear\`).
speakers:
  left: { gear: unknown, channel: L, at: { x: 1.40 m, y: 0.89 m, z: 1.20 m }, aim: mix }
  right: { gear: unknown, channel: R, at: { x: 2.80 m, y: 0.89 m, z: 1.20 m }, aim: mix }

# subwoofers:
#   sub: { gear: my_sub, at: { x: 1.70 m, y: 0.50 m, z: 0.25 m } }
# devices:
#   desk: { gear: my_interface }
# wiring:
#   - desk.main_left -> sub.in_left
#   - desk.main_right -> sub.in_right
#   - sub.out_left -> left.in
#   - sub.out_right -> right.in
# settings:
#   sub: { crossover: { frequency: 80 Hz, slope: 24 dB/oct }, polarity: normal }

targets:
  layout: 0+2+0
  reference_level: 79 dBC
`;
