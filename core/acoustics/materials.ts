// Random-incidence absorption of common building materials and treatments, by names that read well in a room file.
//
// Laboratories differ by ±0.05 to 0.1, and no table had 63 Hz: its figure is that of 125 Hz, marked as extrapolated. Porous
// layers by thickness have no common table here; theirs are computed from one layer model, so that they compare with each
// other, and marked as estimates.

import { ORDINARY_AIR, speedOfSound_m_s } from './air.ts';
import { diffuseAbsorption_ratio, type PorousLayer, porousAdmittance } from './porousLayer.ts';

/** The octave bands of the tables, nominal. */
export const MATERIAL_BANDS_HZ: readonly number[] = [63, 125, 250, 500, 1000, 2000, 4000];

export interface Material {
  /** what it is, in words */
  readonly title: string;
  /** in the order of `MATERIAL_BANDS_HZ` */
  readonly absorptions_ratio: readonly number[];
  /** bands of that list whose figure is taken over from the next band, nominal */
  readonly extrapolated_hz: readonly number[];
  /** printed in tables, or computed by us */
  readonly status: 'table' | 'estimate';
  readonly source: string;
}

const GENERAL = 'general absorption tables, two or more copies agreeing';
const HANDBOOKS = 'handbook tables and general absorption tables agreeing';
const ONE_TABLE = 'a general absorption table, one copy only';
const MASTER = 'Everest & Pohlmann, Master Handbook of Acoustics, reverberation examples';
const AUDIO = 'Audio Engineering handbook (2009), Table 3.4';
const COX = "Cox & D'Antonio, Acoustic Absorbers and Diffusers, Appendix A";

type Row = readonly [title: string, octaves125to4k: readonly number[], source: string];

const TABLE: Readonly<Record<string, Row>> = {
  concrete_smooth: [
    'Concrete, smooth, sealed or painted',
    [0.01, 0.01, 0.02, 0.02, 0.02, 0.02],
    GENERAL,
  ],
  concrete_rough: ['Concrete, rough', [0.02, 0.03, 0.03, 0.03, 0.04, 0.07], GENERAL],
  concrete_block_unpainted: [
    'Concrete block, coarse, unpainted',
    [0.36, 0.44, 0.31, 0.29, 0.39, 0.25],
    HANDBOOKS,
  ],
  concrete_block_painted: [
    'Concrete block, painted',
    [0.1, 0.05, 0.06, 0.07, 0.09, 0.08],
    HANDBOOKS,
  ],
  brick_unglazed: ['Brick, unglazed', [0.03, 0.03, 0.03, 0.04, 0.05, 0.07], HANDBOOKS],
  brick_painted: ['Brick, painted', [0.01, 0.01, 0.02, 0.02, 0.02, 0.03], HANDBOOKS],
  plaster_on_masonry: [
    'Lime-cement plaster on masonry',
    [0.02, 0.02, 0.03, 0.04, 0.05, 0.05],
    GENERAL,
  ],
  plaster_on_lath: ['Plaster on lath', [0.14, 0.1, 0.06, 0.05, 0.04, 0.03], ONE_TABLE],
  gypsum_board_on_studs: [
    'Gypsum board 13 mm on studs',
    [0.29, 0.1, 0.05, 0.04, 0.07, 0.09],
    MASTER,
  ],
  gypsum_board_on_frame: [
    'Gypsum board on a frame, 100 mm air space',
    [0.3, 0.12, 0.08, 0.06, 0.06, 0.05],
    `${GENERAL}; they disagree whether the cavity is filled`,
  ],
  gypsum_board_double: [
    'Two layers of gypsum board, 50 mm mineral wool in the cavity',
    [0.15, 0.1, 0.06, 0.04, 0.04, 0.05],
    ONE_TABLE,
  ],
  plasterboard_ceiling: [
    'Plasterboard ceiling, deep air space',
    [0.2, 0.15, 0.1, 0.05, 0.05, 0.05],
    AUDIO,
  ],
  glass_4mm: ['Window, glass 4 mm', [0.3, 0.2, 0.1, 0.07, 0.05, 0.02], HANDBOOKS],
  glass_6mm: ['Glass 6 mm', [0.1, 0.06, 0.04, 0.03, 0.02, 0.02], GENERAL],
  glass_heavy: ['Heavy plate glass, large pane', [0.18, 0.06, 0.04, 0.03, 0.02, 0.02], GENERAL],
  double_glazing: [
    'Double glazing 2–3 mm, 10 mm gap',
    [0.15, 0.05, 0.03, 0.03, 0.02, 0.02],
    ONE_TABLE,
  ],
  door_solid_timber: ['Solid timber door', [0.1, 0.07, 0.05, 0.04, 0.04, 0.04], ONE_TABLE],
  wood_floor_on_joists: ['Wood floor on joists', [0.15, 0.11, 0.1, 0.07, 0.06, 0.07], GENERAL],
  parquet_on_concrete: ['Parquet on concrete', [0.04, 0.04, 0.07, 0.06, 0.06, 0.07], GENERAL],
  vinyl_on_concrete: [
    'Linoleum or vinyl on concrete',
    [0.02, 0.03, 0.03, 0.03, 0.03, 0.02],
    GENERAL,
  ],
  marble_or_tile: ['Marble or glazed tile', [0.01, 0.01, 0.01, 0.01, 0.02, 0.02], GENERAL],
  carpet_thin: ['Carpet, thin', [0.01, 0.05, 0.1, 0.2, 0.45, 0.65], AUDIO],
  carpet_on_concrete: [
    'Carpet, heavy, on concrete',
    [0.02, 0.06, 0.14, 0.37, 0.6, 0.65],
    HANDBOOKS,
  ],
  carpet_on_underlay: [
    'Carpet, heavy, on felt or foam',
    [0.08, 0.24, 0.57, 0.69, 0.71, 0.73],
    HANDBOOKS,
  ],
  curtain_medium_straight: [
    'Curtain, medium velour, straight',
    [0.05, 0.07, 0.13, 0.22, 0.32, 0.35],
    COX,
  ],
  curtain_medium_draped: [
    'Curtain, medium velour, draped to half area',
    [0.07, 0.31, 0.49, 0.75, 0.7, 0.6],
    HANDBOOKS,
  ],
  curtain_heavy_draped: [
    'Curtain, heavy velour, draped to half area',
    [0.14, 0.35, 0.55, 0.72, 0.7, 0.65],
    HANDBOOKS,
  ],
  curtain_in_folds: ['Curtain in folds against the wall', [0.05, 0.15, 0.35, 0.4, 0.5, 0.5], COX],
  plywood_12mm_on_air: [
    'Plywood 12 mm over 50 mm air',
    [0.25, 0.05, 0.04, 0.03, 0.03, 0.02],
    ONE_TABLE,
  ],
  wood_panelling_on_air: [
    'Wood panelling, thin, on air space',
    [0.28, 0.22, 0.17, 0.09, 0.1, 0.11],
    ONE_TABLE,
  ],
  glass_fibre_mat_25mm: [
    'Glass-fibre mat 80 kg/m³, 25 mm',
    [0.1, 0.3, 0.55, 0.65, 0.75, 0.8],
    AUDIO,
  ],
  glass_fibre_mat_50mm: ['Glass-fibre mat 80 kg/m³, 50 mm', [0.2, 0.45, 0.7, 0.8, 0.8, 0.8], AUDIO],
  glass_fibre_board_50mm: [
    'Rigid glass-fibre board 50 mm on a solid wall',
    [0.22, 0.82, 0.99, 0.99, 0.99, 0.99],
    `${GENERAL}; cut at 0.99`,
  ],
  foam_25mm: ['Polyurethane foam 25 mm', [0.13, 0.22, 0.68, 1, 0.92, 0.97], GENERAL],
  acoustic_tile_cemented: [
    'Acoustic tile 19 mm, cemented on',
    [0.09, 0.28, 0.78, 0.84, 0.73, 0.64],
    MASTER,
  ],
  acoustic_tile_hung: [
    'Acoustic tile 13 mm, hung 400 mm below the slab',
    [0.52, 0.37, 0.5, 0.69, 0.79, 0.78],
    ONE_TABLE,
  ],
  wood_fibre_ceiling_tile: ['Wood-fibre ceiling tile', [0.15, 0.4, 0.7, 0.8, 0.8, 0.8], AUDIO],
  seating_upholstered: [
    'Upholstered seating, empty, per m² of floor',
    [0.49, 0.66, 0.8, 0.88, 0.82, 0.7],
    GENERAL,
  ],
};

/** Flow resistivity that the estimates assume: mineral wool of about 40 to 50 kg/m³. Common practice, no source. */
const ESTIMATE_FLOW_PA_S_M2 = 10_000;

/** All materials by name, in the order of the tables; a `Map`, since names come from a file. */
export const MATERIALS: ReadonlyMap<string, Material> = new Map([
  ...Object.entries(TABLE).map(([name, row]) => [name, fromTable(row)] as const),
  ...[50, 100, 200].map(
    (thickness_mm) => [`porous_${thickness_mm}mm`, estimated(thickness_mm / 1000)] as const,
  ),
]);

/**
 * Absorption of a material at any frequency: straight between its octave bands over log frequency, held beyond the ends.
 *
 * @param frequency_hz > 0
 */
export function absorptionAt_ratio(
  absorptions_ratio: readonly number[],
  frequency_hz: number,
): number {
  const octave = Math.log2(frequency_hz / 62.5);
  const index = Math.min(absorptions_ratio.length - 1, Math.max(0, octave));
  const lower = absorptions_ratio[Math.floor(index)] ?? Number.NaN;
  const upper = absorptions_ratio[Math.ceil(index)] ?? Number.NaN;
  return lower + (index - Math.floor(index)) * (upper - lower);
}

function fromTable([title, octaves125to4k, source]: Row): Material {
  const [at125 = Number.NaN] = octaves125to4k;
  const absorptions_ratio = [at125, ...octaves125to4k];
  return { title, absorptions_ratio, extrapolated_hz: [63], status: 'table', source };
}

function estimated(thickness_m: number): Material {
  const layer: PorousLayer = { thickness_m, flowResistivity_pa_s_m2: ESTIMATE_FLOW_PA_S_M2 };
  const c_m_s = speedOfSound_m_s(ORDINARY_AIR);
  const absorptions_ratio = MATERIAL_BANDS_HZ.map((frequency_hz) => {
    const absorption = diffuseAbsorption_ratio(porousAdmittance(layer, frequency_hz, c_m_s));
    return Math.round(absorption * 100) / 100;
  });
  return {
    title: `Porous layer ${thickness_m * 1000} mm on a solid wall`,
    absorptions_ratio,
    extrapolated_hz: [],
    status: 'estimate',
    source:
      'estimate: layer model of Miki 1990, 10 kPa·s/m², hard backing, locally reacting, random incidence; laboratories print more (edge effect)',
  };
}
