// The low end in words: what a source or a channel comes to at a seat, from what it follows, and how far to trust it.

import type {
  ChannelField,
  CurveExtremes,
  Extreme,
  FieldCurve,
  FieldFigures,
  SeatField,
} from '../../core/fieldFigures.ts';
import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import { code, type Explanation } from './explanation.ts';

/** "-16 dB 69 Hz", "+11 dB ~151 Hz": deepest dip, highest peak; ~ where single figures are chance. Short, for hints. */
export function extremesLabel(
  { dip, peak }: CurveExtremes,
  schroeder_hz: number | null,
): readonly string[] {
  const about = (frequency_hz: number): string =>
    schroeder_hz !== null && schroeder_hz < frequency_hz ? '~' : '';
  return [dip, peak].map(
    ({ frequency_hz, level_db }) =>
      `${0 < level_db ? '+' : ''}${level_db.toFixed(0)} dB ${about(frequency_hz)}${frequency_hz.toFixed(0)} Hz`,
  );
}

/** The channel with the deepest dip at this seat; what a seat is judged by in one line. */
export function worstChannel({ channels }: SeatField): ChannelField | null {
  const depth_db = ({ extremes }: ChannelField): number => extremes?.dip.level_db ?? 0;
  const [worst] = channels
    .filter(({ extremes }) => extremes !== null)
    .toSorted((one, other) => depth_db(one) - depth_db(other));
  return worst ?? null;
}

export function channelName({ channel, set }: Pick<ChannelField, 'channel' | 'set'>): string {
  return set === null ? channel : `${channel} (${set})`;
}

export function explainSource(setup: Setup, source: string, show: Show): readonly Explanation[] {
  const { field, referenceSeat } = setup;
  const here = field?.seats.find(({ seat }) => seat === referenceSeat);
  if (!field || !here) return [];
  return here.sources
    .filter((one) => one.source === source && one.extremes !== null)
    .map((curve) => ({
      title: `Low end of ${code(source)} at ${code(here.seat)}${curve.set === null ? '' : `, set ${curve.set}`}`,
      lines: [
        ...curveLines(curve, field, show),
        ...polarityLines(field, source, curve.set, show),
        ...trustLines(field, show),
      ],
      source: SOURCES[field.method],
    }));
}

export function explainSeat(setup: Setup, seat: string, show: Show): readonly Explanation[] {
  const { field } = setup;
  const here = field?.seats.find((one) => one.seat === seat);
  if (!field || !here || here.channels.length === 0) return [];
  return [
    {
      title: 'Low end at this seat, by channel',
      lines: [
        ...here.channels.flatMap(({ extremes, ...channel }) =>
          extremes === null
            ? []
            : `${channelName(channel)}: ${spanText(extremes, show)}, dip ${extremeText(extremes.dip, show)}, peak ${extremeText(extremes.peak, show)}`,
        ),
        ...trustLines(field, show),
      ],
      source: SOURCES[field.method],
    },
  ];
}

function curveLines(curve: FieldCurve, field: FieldFigures, show: Show): readonly string[] {
  const { extremes, lower_db, upper_db } = curve;
  if (extremes === null) return [];
  const { dip, peak, median_db } = extremes;
  const at = field.frequency_hz.findIndex((f_hz) => dip.frequency_hz <= f_hz + 0.01);
  const [lower, upper] = [lower_db?.[at], upper_db?.[at]];
  return [
    `deepest dip **${extremeText(dip, show)}**, highest peak **${extremeText(peak, show)}**, against its median of ${show.level(median_db)} SPL`,
    ...(lower === undefined || upper === undefined
      ? []
      : [
          `at the dip anything from ${signed(lower - median_db, show)} to ${signed(upper - median_db, show)} is possible`,
        ]),
    `${spanText(extremes, show)} in one-third-octave bands`,
  ];
}

function polarityLines(
  { polarity }: FieldFigures,
  sub: string,
  set: string | null,
  show: Show,
): readonly string[] {
  return polarity
    .filter((one) => one.sub === sub && one.set === set)
    .map(({ overlap_hz: [from_hz, to_hz], asSet_db, turned_db }) => {
      const more_db = asSet_db - turned_db;
      const whole = `${show.frequency(from_hz)} to ${show.frequency(to_hz)}, where it shares the work with the mains`;
      return 0 <= more_db
        ? `the polarity as set gives ${show.level(more_db)} more than the other, ${whole}`
        : `the other polarity would give ${show.level(-more_db)} more, ${whole}`;
    });
}

/** Basis, envelope and the limit above which single figures mean nothing. */
function trustLines(field: FieldFigures, show: Show): readonly string[] {
  const { damping, level, uncertainty, schroeder_hz } = field;
  const from =
    damping.from === 'measured'
      ? 'the surfaces, scaled to the measured decay times'
      : 'the surfaces’ absorption, unmeasured';
  const basis =
    level.kind === 'absolute'
      ? `for ${level.input_dbfs} dBFS`
      : 'matched ones: gear or gains are not all recorded';
  return [
    `${METHODS[field.method]}; damping from ${from}; levels ${basis}`,
    ...(uncertainty === null
      ? []
      : [
          `trusted as far as ${uncertainty.draws} slightly different rooms agree: places ±${show.smallLength(uncertainty.sourcePosition_m)} to ±${show.smallLength(uncertainty.seatPosition_m)}, walls ±${show.smallLength(uncertainty.dimension_m)}, absorption up to ${uncertainty.absorption_ratio.toFixed(1)} times more or less, modes ±${show.share(uncertainty.construction_ratio)}`,
        ]),
    ...(schroeder_hz === null
      ? []
      : [`above ${show.frequency(schroeder_hz)} single dips and peaks are chance`]),
  ];
}

function spanText({ plusMinus_db, from_hz, to_hz }: CurveExtremes, show: Show): string {
  return `±${show.level(plusMinus_db)} from ${show.frequency(from_hz)} to ${show.frequency(to_hz)}`;
}

function extremeText({ frequency_hz, level_db }: Extreme, show: Show): string {
  return `${signed(level_db, show)} at ${show.frequency(frequency_hz)}`;
}

function signed(level_db: number, show: Show): string {
  return `${0 < level_db ? '+' : ''}${show.level(level_db)}`;
}

const METHODS: Readonly<Record<FieldFigures['method'], string>> = {
  box: 'exact sound field of a box with these walls',
  'flat ceiling': 'finite elements over the plan, times modes of the height',
  'sloped ceiling': 'finite elements of the whole room',
};

const SOURCES: Readonly<Record<FieldFigures['method'], string>> = {
  box: 'Morse & Ingard, Theoretical Acoustics, chapter 9 (sound in rooms with locally reacting walls)',
  'flat ceiling': 'finite elements of the Helmholtz equation, as in any textbook of them',
  'sloped ceiling': 'finite elements of the Helmholtz equation, as in any textbook of them',
};
