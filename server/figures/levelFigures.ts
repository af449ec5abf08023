// The figures of levels: gain along each way, what reaches the seat, pairs, calibration, exposure; and what several seats ask for.

import type { BandReach, GainChain, ReachFigures } from '../../core/levelFigures.ts';
import type { NoiseTrim, SeatNoise } from '../../core/noiseFigures.ts';
import { backgroundOf } from '../../core/parts/levels/background.ts';
import type { LayoutFigures, SeatDelayFigures, Setup } from '../../core/setup.ts';
import { pathText } from '../../schema/model/path.ts';
import { toDegrees, toMs } from './convert.ts';

export function levelFigures(setup: Setup): unknown {
  const { levels } = setup;
  const { reference, exposure } = levels;
  return {
    reference: {
      stated_db: reference.stated_db,
      weighting: reference.weighting,
      from: reference.from,
      channel_count: reference.channelCount,
    },
    named_references: (levels.named ?? []).map((one) => ({
      document: one.name,
      level_db: one.level_db,
      weighting: one.weighting,
      signal_dbfs: one.signal_dbfs,
      source: one.source,
    })),
    calibration: (levels.calibration ?? []).map((one) => ({
      channel: one.channel,
      set: one.set,
      kind: one.kind,
      band_hz: one.band_hz,
      signal_dbfs: one.signal_dbfs,
      weighting: one.weighting,
      reading_db: one.reading_db,
      cut_reading_db: one.cut_db,
      tolerance_db: one.tolerance_db,
    })),
    gain: (levels.chains ?? []).map(chain),
    reach: (levels.reach ?? []).map(reach),
    channels: (levels.channels ?? []).map(({ channel, set, worst }) => ({ channel, set, worst })),
    pairs: (levels.pairs ?? []).map(({ left, right, set, difference_db }) => ({
      left,
      right,
      set,
      difference_db,
    })),
    attenuation: (levels.attenuation ?? []).map((one) => ({
      speaker: one.target,
      set: one.set,
      surplus_db: one.surplus_db,
      trims_db: one.trims_db,
      digital_db: one.digital_db,
    })),
    bass_sums: (levels.bassSums ?? []).map((one) => ({
      subwoofer: one.sub,
      set: one.set,
      sum_db: one.sum_db,
      at_bus_db: one.atBus_db,
      headroom_db: one.headroom_db,
    })),
    noise: { background: backgroundOf(setup), sets: (levels.noise ?? []).map(noise) },
    noise_trims: (levels.noiseTrims ?? []).map(noiseTrim),
    exposure: exposure && { level_dba: exposure.level_dba, hours: exposure.hours },
    lfe_peak_dbc: levels.lfePeak_dbc ?? null,
  };
}

function chain({
  source,
  channel,
  target,
  set,
  points,
  firstToClip,
  driver_db,
}: GainChain): unknown {
  return {
    source,
    channel,
    target,
    set,
    points: points.map(({ at, level_dbu, limit_dbu, margin_db }) => ({
      at,
      level_dbu,
      limit_dbu,
      margin_db,
    })),
    first_to_clip: firstToClip && { at: firstToClip.at, source_dbfs: firstToClip.source_dbfs },
    driver_db,
  };
}

function noise({ set, level_dba, sources, missing }: SeatNoise): unknown {
  return {
    set,
    level_dba,
    sources: sources.map((one) => ({
      at: one.at,
      kind: one.kind,
      through: one.target,
      output_dbu: one.output_dbu,
      level_dba: one.level_dba,
    })),
    missing,
  };
}

function noiseTrim({ target, set, late, early, by_db, saves_db }: NoiseTrim): unknown {
  return {
    speaker: target,
    set,
    lower: pathText(late.path),
    raise: early && pathText(early.path),
    by_db,
    saves_db,
  };
}

function reach(figures: ReachFigures): unknown {
  return {
    source: figures.source,
    set: figures.set,
    lfe: figures.isLfe,
    together: figures.together,
    wanted_db: figures.wanted_db,
    range_hz: figures.range_hz,
    worst: figures.worst,
    bands: figures.bands.map(band),
  };
}

function band(one: BandReach): unknown {
  return {
    frequency_hz: one.frequency_hz,
    driver_db: one.driver_db,
    signal_db: one.signal_db,
    boost_db: one.boost_db,
    headroom_db: one.headroom_db,
  };
}

export function seatDelayFigures(figures: SeatDelayFigures): unknown {
  return {
    path: pathText(figures.path),
    subwoofers: figures.subs,
    mains: figures.mains,
    crossover_hz: figures.crossover_hz,
    spread_ms: toMs(figures.spread_s),
    seats: figures.seats.map(({ seat, difference_s, phase_rad }) => ({
      seat,
      difference_ms: toMs(difference_s),
      phase_deg: toDegrees(phase_rad),
    })),
    choices: figures.choices.map((choice) => ({
      for: choice.for,
      more_ms: toMs(choice.more_s),
      worst_phase_deg: toDegrees(choice.worstPhase_rad),
      rms_phase_deg: toDegrees(choice.rmsPhase_rad),
      worst_loss_db: choice.worstLoss_db,
    })),
  };
}

export function layoutFigures({
  layout,
  set,
  seat,
  positions,
  otherSeats,
}: LayoutFigures): unknown {
  return {
    layout,
    set,
    seat,
    positions: positions.map((position) => ({
      label: position.label,
      channel: position.channel,
      speaker: position.speaker,
      fits: position.fits,
    })),
    other_seats: (otherSeats ?? []).map((other) => ({
      seat: other.seat,
      worst_deg: toDegrees(other.worst_rad),
      positions: other.positions.map((one) => ({
        label: one.label,
        speaker: one.speaker,
        azimuth_deg: toDegrees(one.azimuth_rad),
        beyond_azimuth_deg: toDegrees(one.beyondAzimuth_rad),
        beyond_elevation_deg: toDegrees(one.beyondElevation_rad),
      })),
    })),
  };
}

export function reflectionFigures({ boundaries }: Setup): unknown {
  return Object.fromEntries(
    boundaries.map(({ source, reflections }) => [
      source,
      reflections.map((one) => ({
        surface: one.surface,
        behind_ms: toMs(one.behind_s),
        level_db: one.level_db,
        early_db: one.early_db ?? null,
        notch_hz: one.notch_hz,
        depth_db: one.depth_db,
      })),
    ]),
  );
}
