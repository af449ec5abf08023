// A connection in words: what runs through it and how its levels meet.

import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import { code, type Explanation } from './explanation.ts';

function channelsThrough(setup: Setup, connection: number): readonly string[] {
  const channels = setup.signalPaths
    .filter(({ connections }) => connections.includes(connection))
    .flatMap(({ channel }) => (channel === null ? [] : [channel]));
  return [...new Set(channels)];
}

/** "L · 8.0 dB in hand". */
export function connectionLabel(setup: Setup, connection: number, show: Show): readonly string[] {
  const margin_db = marginOf(setup, connection);
  const channels = channelsThrough(setup, connection);
  return [
    ...(channels.length === 0 ? [] : [channels.join(' ')]),
    ...(margin_db === null
      ? []
      : [`${show.level(Math.abs(margin_db))} ${margin_db < 0 ? 'too hot' : 'in hand'}`]),
  ];
}

export function explainConnection(
  setup: Setup,
  connection: number,
  show: Show,
): Explanation | null {
  const wire = setup.room.wiring.find(({ index }) => index === connection);
  if (!wire) return null;
  const through = setup.signalPaths.filter(({ connections }) => connections.includes(connection));
  const lines = through.map(
    ({ source, channel, target, latency_s, delay_s, gain_db, inverted }) =>
      `${code(`${source.device}.${source.port}`)}${channel === null ? '' : ` (${channel})`} to ${code(target)}: ${latency_s === null ? 'latency not recorded' : `latency ${show.time(latency_s)}`}, delay ${show.time(delay_s)}, gain ${show.level(gain_db)}${inverted ? ', inverted' : ''}`,
  );
  const levels = setup.levels.connections.find((one) => one.connection === connection);
  const margin_db = levels?.margin_db ?? null;
  if (margin_db !== null)
    lines.push(
      margin_db < 0
        ? `full level of the output lies ${show.level(-margin_db)} above the input's: it can clip`
        : `the input's full level lies ${show.level(margin_db)} above the output's`,
    );
  for (const chain of setup.levels.chains ?? []) {
    const first = chain.firstToClip;
    if (first === null || !(first.source_dbfs < -0.05)) continue;
    if (!chain.points.some(({ at }) => at === `${wire.to.device}.${wire.to.port}`)) continue;
    lines.push(
      `on the way to ${code(chain.target)} ${code(first.at)} clips first, at ${first.source_dbfs.toFixed(1)} dBFS at the source`,
    );
  }
  if (lines.length === 0) lines.push('no signal reaches a loudspeaker through it');
  return {
    title: `${code(`${wire.from.device}.${wire.from.port}`)} → ${code(`${wire.to.device}.${wire.to.port}`)}`,
    lines,
    source: null,
  };
}

function marginOf(setup: Setup, connection: number): number | null {
  return setup.levels.connections.find((one) => one.connection === connection)?.margin_db ?? null;
}
