// All rules in the order in which their findings are shown: the room first, then what stands in it, the signal, the record.

import { airOutOfRange } from './air/outOfRange.ts';
import { earlyReflection } from './boundary/earlyReflection.ts';
import { boundaryNotch } from './boundary/notch.ts';
import { boundaryNotchInCrossover } from './boundary/notchInCrossover.ts';
import { crossoverDip } from './crossover/dip.ts';
import { crossoverLocated } from './crossover/located.ts';
import { crossoverPhase } from './crossover/phase.ts';
import { crossoverStartDiffers } from './crossover/startDiffers.ts';
import { crossoverTooLow } from './crossover/tooLow.ts';
import { delayCycleOff } from './delay/cycleOff.ts';
import { delayDiffers } from './delay/differs.ts';
import { delayLatency } from './delay/latency.ts';
import { delayNotSet } from './delay/notSet.ts';
import { delayOffStep } from './delay/offStep.ts';
import { delayOutOfRange } from './delay/outOfRange.ts';
import { delayPair } from './delay/pair.ts';
import { delayRounding } from './delay/rounding.ts';
import { eqBoostBelowTuning } from './eq/boostBelowTuning.ts';
import { eqBoostIntoNull } from './eq/boostIntoNull.ts';
import { fieldDipAtSeat } from './field/dipAtSeat.ts';
import { fieldDipInCrossover } from './field/dipInCrossover.ts';
import { fieldNone } from './field/noField.ts';
import { fieldPolarity } from './field/polarity.ts';
import { fieldSeatOnMode } from './field/seatOnMode.ts';
import { fieldSeatSpread } from './field/seatSpread.ts';
import { fieldSubOnNode } from './field/subOnNode.ts';
import { geometryInKeepClear } from './geometry/inKeepClear.ts';
import { geometryInsideObstacle } from './geometry/insideObstacle.ts';
import { geometryOutside } from './geometry/outside.ts';
import { geometryOverlap } from './geometry/overlap.ts';
import { layoutAzimuth } from './layout/azimuth.ts';
import { layoutBaseWidth } from './layout/baseWidth.ts';
import { layoutChannelTwice } from './layout/channelTwice.ts';
import { layoutDistance } from './layout/distance.ts';
import { layoutElevation } from './layout/elevation.ts';
import { layoutHeight } from './layout/height.ts';
import { layoutListeningDistance } from './layout/listeningDistance.ts';
import { layoutMissing } from './layout/missing.ts';
import { layoutSymmetry } from './layout/symmetry.ts';
import { layoutUnexpected } from './layout/unexpected.ts';
import { levelsAttenuation } from './levels/attenuation.ts';
import { levelsExposure } from './levels/exposure.ts';
import { levelsHeadroom } from './levels/headroom.ts';
import { levelsLfeGain } from './levels/lfeGain.ts';
import { levelsNoise } from './levels/noise.ts';
import { levelsOverload } from './levels/overload.ts';
import { levelsPair } from './levels/pair.ts';
import { levelsReferenceLevel } from './levels/referenceLevel.ts';
import { levelsShortOfReference } from './levels/shortOfReference.ts';
import { levelsSubHeadroom } from './levels/subHeadroom.ts';
import { levelsWeakInput } from './levels/weakInput.ts';
import { measuredCause } from './measured/cause.ts';
import { measuredContradicted } from './measured/contradicted.ts';
import { measuredDecayDiffers } from './measured/decayDiffers.ts';
import { measuredDecayTime } from './measured/decayTime.ts';
import { measuredDiffers } from './measured/differs.ts';
import { measuredNoise } from './measured/noise.ts';
import { measuredNoiseDiffers } from './measured/noiseDiffers.ts';
import { measuredPair } from './measured/pair.ts';
import { measuredRoomResponse } from './measured/roomResponse.ts';
import { measuredSeatSpread } from './measured/seatSpread.ts';
import { measuredTarget } from './measured/target.ts';
import { measuredUndecided } from './measured/undecided.ts';
import { measurementCalibrator } from './measurement/calibrator.ts';
import { measurementClipped } from './measurement/clipped.ts';
import { measurementCorrection } from './measurement/correction.ts';
import { measurementCutShort } from './measurement/cutShort.ts';
import { measurementDoubtfulArrival } from './measurement/doubtfulArrival.ts';
import { measurementLines } from './measurement/lines.ts';
import { measurementLowSignal } from './measurement/lowSignal.ts';
import { measurementNoChannel } from './measurement/noChannel.ts';
import { measurementNoLevel } from './measurement/noLevel.ts';
import { measurementNoNumber } from './measurement/noNumber.ts';
import { measurementNoTiming } from './measurement/noTiming.ts';
import { measurementSampleRate } from './measurement/sampleRate.ts';
import { measurementSilent } from './measurement/silent.ts';
import { measurementSweepFile } from './measurement/sweepFile.ts';
import { measurementUnreadable } from './measurement/unreadable.ts';
import { placementHeavyLift } from './placement/heavyLift.ts';
import { placementOverhead } from './placement/overhead.ts';
import { rearNearSurface } from './placement/rearNearSurface.ts';
import { sourceNearWall } from './placement/sourceNearWall.ts';
import { subInCorner } from './placement/subInCorner.ts';
import { subNotInLine } from './placement/subNotInLine.ts';
import { subOnMidline } from './placement/subOnMidline.ts';
import { polarityOther } from './polarity/other.ts';
import { polarityUndecided } from './polarity/undecided.ts';
import { powerCircuitLoad } from './power/circuitLoad.ts';
import { powerCircuitOf } from './power/circuitOf.ts';
import { powerInrush } from './power/inrush.ts';
import { powerStandby } from './power/standby.ts';
import { acceptanceEnded } from './record/acceptanceEnded.ts';
import { acceptanceUnused } from './record/acceptanceUnused.ts';
import { recordDrift } from './record/drift.ts';
import { listeningNotGood } from './record/listeningNotGood.ts';
import { listeningOpen } from './record/listeningOpen.ts';
import { recordNotTied } from './record/notTied.ts';
import { recheckDue } from './record/recheckDue.ts';
import { sessionOutOfDate } from './record/sessionOutOfDate.ts';
import { signOffOutOfDate } from './record/signOffOutOfDate.ts';
import { signOffUnmeasured } from './record/signOffUnmeasured.ts';
import type { Rule } from './rule.ts';
import { settingsNotOffered } from './settings/notOffered.ts';
import { settingsOffStep } from './settings/offStep.ts';
import { settingsOutOfRange } from './settings/outOfRange.ts';
import { settingsToldOtherwise } from './settings/toldOtherwise.ts';
import { bassTwice } from './signal/bassTwice.ts';
import { cableLong } from './signal/cableLong.ts';
import { cableShort } from './signal/cableShort.ts';
import { cableUnwired } from './signal/cableUnwired.ts';
import { driverUnreached } from './signal/driverUnreached.ts';
import { lfeNoLowPass } from './signal/lfeNoLowPass.ts';
import { lfeNotPlus10 } from './signal/lfeNotPlus10.ts';
import { lfeThroughCrossover } from './signal/lfeThroughCrossover.ts';
import { signalLoop } from './signal/loop.ts';
import { noDelayStage } from './signal/noDelayStage.ts';
import { noHighPass } from './signal/noHighPass.ts';
import { portUsedTwice } from './signal/portUsedTwice.ts';
import { subGetsNothing } from './signal/subGetsNothing.ts';
import { sumNoGainStated } from './signal/sumNoGainStated.ts';
import { spaceBonello } from './space/bonello.ts';
import { spaceCoincidentModes } from './space/coincidentModes.ts';
import { spaceDecayTime } from './space/decayTime.ts';
import { spaceFloorArea } from './space/floorArea.ts';
import { spaceNoise } from './space/noise.ts';
import { spaceProportions } from './space/proportions.ts';
import { spaceSeatAtMidLength } from './space/seatAtMidLength.ts';
import { spaceUnequalSides } from './space/unequalSides.ts';
import { spaceWholeNumberRatio } from './space/wholeNumberRatio.ts';

/** Codes are never renamed or used again. The rules of acceptances come last: they look at what the others found. */
export const RULES: readonly Rule[] = [
  geometryOutside,
  geometryInsideObstacle,
  geometryInKeepClear,
  geometryOverlap,
  airOutOfRange,
  spaceFloorArea,
  spaceProportions,
  spaceWholeNumberRatio,
  spaceBonello,
  spaceCoincidentModes,
  spaceDecayTime,
  spaceNoise,
  spaceSeatAtMidLength,
  spaceUnequalSides,
  layoutMissing,
  layoutUnexpected,
  layoutChannelTwice,
  layoutAzimuth,
  layoutElevation,
  layoutHeight,
  layoutSymmetry,
  layoutDistance,
  layoutBaseWidth,
  layoutListeningDistance,
  subOnMidline,
  subInCorner,
  subNotInLine,
  sourceNearWall,
  rearNearSurface,
  boundaryNotch,
  boundaryNotchInCrossover,
  earlyReflection,
  placementOverhead,
  placementHeavyLift,
  signalLoop,
  portUsedTwice,
  driverUnreached,
  subGetsNothing,
  bassTwice,
  noHighPass,
  noDelayStage,
  lfeNoLowPass,
  lfeNotPlus10,
  lfeThroughCrossover,
  sumNoGainStated,
  cableShort,
  cableLong,
  cableUnwired,
  levelsOverload,
  levelsWeakInput,
  levelsLfeGain,
  levelsReferenceLevel,
  levelsShortOfReference,
  levelsPair,
  levelsHeadroom,
  levelsSubHeadroom,
  levelsAttenuation,
  levelsNoise,
  settingsOutOfRange,
  settingsNotOffered,
  settingsOffStep,
  settingsToldOtherwise,
  eqBoostBelowTuning,
  eqBoostIntoNull,
  crossoverDip,
  crossoverPhase,
  crossoverTooLow,
  crossoverLocated,
  crossoverStartDiffers,
  polarityOther,
  polarityUndecided,
  delayDiffers,
  delayNotSet,
  delayOutOfRange,
  delayOffStep,
  delayRounding,
  delayPair,
  delayCycleOff,
  delayLatency,
  powerCircuitLoad,
  powerInrush,
  powerCircuitOf,
  powerStandby,
  levelsExposure,
  fieldNone,
  fieldDipAtSeat,
  fieldDipInCrossover,
  fieldPolarity,
  fieldSeatOnMode,
  fieldSubOnNode,
  fieldSeatSpread,
  recheckDue,
  signOffOutOfDate,
  signOffUnmeasured,
  sessionOutOfDate,
  recordNotTied,
  listeningNotGood,
  listeningOpen,
  recordDrift,
  measurementUnreadable,
  measurementSweepFile,
  measurementCalibrator,
  measurementNoLevel,
  measurementNoChannel,
  measurementSampleRate,
  measurementNoNumber,
  measurementSilent,
  measurementCutShort,
  measurementClipped,
  measurementLines,
  measurementCorrection,
  measurementNoTiming,
  measurementLowSignal,
  measurementDoubtfulArrival,
  measuredCause,
  measuredUndecided,
  measuredContradicted,
  measuredDiffers,
  measuredTarget,
  measuredRoomResponse,
  measuredPair,
  measuredSeatSpread,
  measuredDecayTime,
  measuredNoise,
  measuredNoiseDiffers,
  measuredDecayDiffers,
  acceptanceEnded,
  acceptanceUnused,
];

/** The rule of a code; undefined where there is none. */
export function ruleFor(code: string): Rule | undefined {
  return RULES.find((rule) => rule.code === code);
}
