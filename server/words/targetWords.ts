// Layout, reference level and circuits in words.

import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import { code, type Explanation } from './explanation.ts';

export function explainLayout(setup: Setup, show: Show): readonly Explanation[] {
  return setup.layouts.map((layout) => ({
    title: `Layout ${layout.layout} at ${code(layout.seat)}`,
    lines: [
      ...layout.positions.map(({ label, channel, speaker, azimuth_rad, fits }) =>
        speaker === null
          ? `${label} (${channel}): no loudspeaker`
          : `${label} (${channel}): ${code(speaker)}${azimuth_rad === null ? '' : ` at ${show.angle(azimuth_rad)}`}${fits === null ? '' : fits ? ' ✓' : ', out of its range'}`,
      ),
      ...(layout.baseWidth_m === null ? [] : [`base width ${show.length(layout.baseWidth_m)}`]),
      ...(layout.listeningDistance_m === null
        ? []
        : [`listening distance ${show.length(layout.listeningDistance_m)}`]),
      ...(layout.otherSeats ?? []).map(
        ({ seat, worst_rad }) =>
          `from ${code(seat)} up to ${show.angle(worst_rad)} outside these angles`,
      ),
    ],
    source: layout.source,
  }));
}

export function explainReferenceLevel({ levels }: Setup, show: Show): Explanation {
  const { stated_db, weighting, from, byChannelCount_dba, byVolume_db, channelCount } =
    levels.reference;
  const lines: string[] = [];
  if (stated_db !== null)
    lines.push(
      `**${stated_db.toFixed(0)} dB${weighting ?? ''}**${from === 'policy' ? ', from the policy' : ''}`,
    );
  if (byChannelCount_dba !== null)
    lines.push(
      `by channel count (${channelCount}): ${byChannelCount_dba.toFixed(1)} dBA a channel`,
    );
  if (byVolume_db !== null) lines.push(`by the room's volume: ${byVolume_db.toFixed(0)} dBC`);
  const read = new Map((levels.calibration ?? []).map((one) => [one.kind, one]));
  for (const one of read.values()) {
    const [from_hz, to_hz] = one.band_hz;
    lines.push(
      `meter reads ${one.reading_db.toFixed(1)} dB${one.weighting}, slow, for ${show.frequency(from_hz)} to ${show.frequency(to_hz)} at ${one.signal_dbfs} dBFS RMS (${one.kind === 'lfe' ? 'LFE' : one.kind})`,
    );
  }
  if (levels.exposure !== null)
    lines.push(
      `all channels together ${show.level(levels.exposure.level_dba)}A: ${levels.exposure.hours.toFixed(1)} hours a day by NIOSH; a caution, not a judgement of this workplace`,
    );
  return {
    title: 'Reference level',
    lines: lines.length === 0 ? ['not stated'] : lines,
    source: 'EBU Tech 3276 (level by channel count); NIOSH 98-126 (exposure)',
  };
}

export function explainCircuit(setup: Setup, circuit: string, show: Show): Explanation | null {
  const figures = setup.power.circuits.find((one) => one.circuit === circuit);
  if (!figures) return null;
  const lines = [
    `load ${figures.load_a.toFixed(1)} A${figures.share === null ? '' : `, ${show.share(figures.share)} of the rating`}`,
    `idle ${figures.idle_w.toFixed(0)} W, inrush ${figures.inrush_a.toFixed(0)} A if all start at once`,
  ];
  if (0 < figures.unknown.length)
    lines.push(`power not recorded: ${figures.unknown.map(code).join(', ')}`);
  lines.push('mains wiring belongs to licensed people and the local code');
  return { title: `Circuit ${code(circuit)}`, lines, source: null };
}
