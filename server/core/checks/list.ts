/** The list of all checks. A new one is an import and a line here, and one file in `rules/`. */
import type { Check } from './check';
import { absorbersDry } from './rules/absorbers-dry';
import { acceptUnused } from './rules/accept-unused';
import { altitudeOdd } from './rules/altitude-odd';
import { amountZero } from './rules/amount-zero';
import { baseFaulty } from './rules/base-faulty';
import { changeElsewhereToo } from './rules/change-elsewhere-too';
import { changeMatchesNothing } from './rules/change-matches-nothing';
import { changeTwice } from './rules/change-twice';
import { changeUnclear } from './rules/change-unclear';
import { changeWithoutBase } from './rules/change-without-base';
import { setWeightForShare } from './rules/set-weight-for-share';
import { swapChangesKind } from './rules/swap-changes-kind';
import { baseCycle } from './rules/base-cycle';
import { bakeTooLong } from './rules/bake-too-long';
import { bakeTooShort } from './rules/bake-too-short';
import { butterMelts } from './rules/butter-melts';
import { capacityOdd } from './rules/capacity-odd';
import { capacityUnknown } from './rules/capacity-unknown';
import { chemicalLeavenHigh } from './rules/chemical-leaven-high';
import { cocoaLoad } from './rules/cocoa-load';
import { compositionOverWhole } from './rules/composition-over-whole';
import { containsUnknown } from './rules/contains-unknown';
import { contradiction } from './rules/contradiction';
import { coolTooShort } from './rules/cool-too-short';
import { coreLow } from './rules/core-low';
import { coreNeverReached } from './rules/core-never-reached';
import { cultureTooWarm } from './rules/culture-too-warm';
import { doughTemperatureMissed } from './rules/dough-temperature-missed';
import { doughTooWarm } from './rules/dough-too-warm';
import { durationOdd } from './rules/duration-odd';
import { durationZero } from './rules/duration-zero';
import { eggDishCoreLow } from './rules/egg-dish-core-low';
import { eggNotCooked } from './rules/egg-not-cooked';
import { fatBeforeGluten } from './rules/fat-before-gluten';
import { fatHigh } from './rules/fat-high';
import { flourNotWhole } from './rules/flour-not-whole';
import { flourWeak } from './rules/flour-weak';
import { foldOutsideBulk } from './rules/fold-outside-bulk';
import { foldTooLate } from './rules/fold-too-late';
import { formulaMissing } from './rules/formula-missing';
import { formulaTwice } from './rules/formula-twice';
import { frictionOdd } from './rules/friction-odd';
import { hoursOffOdd } from './rules/hours-off-odd';
import { hydrationHigh } from './rules/hydration-high';
import { hydrationImpossible } from './rules/hydration-impossible';
import { hydrationLow } from './rules/hydration-low';
import { inclusionLoad } from './rules/inclusion-load';
import { inclusionsEarly } from './rules/inclusions-early';
import { inclusionsWet } from './rules/inclusions-wet';
import { ingredientOdd } from './rules/ingredient-odd';
import { ingredientTwice } from './rules/ingredient-twice';
import { levainNotRipe } from './rules/levain-not-ripe';
import { levainPastPeak } from './rules/levain-past-peak';
import { likeMissing } from './rules/like-missing';
import { lossOdd } from './rules/loss-odd';
import { lossUnusual } from './rules/loss-unusual';
import { makesDisagrees } from './rules/makes-disagrees';
import { makesNothing } from './rules/makes-nothing';
import { mergeConflict } from './rules/merge-conflict';
import { mixTooLong } from './rules/mix-too-long';
import { needsAWeight } from './rules/needs-a-weight';
import { neverBaked } from './rules/never-baked';
import { noFlour } from './rules/no-flour';
import { noFormula } from './rules/no-formula';
import { noLeaven } from './rules/no-leaven';
import { noOvenHeat } from './rules/no-oven-heat';
import { noSize } from './rules/no-size';
import { noteChangesIngredient } from './rules/note-changes-ingredient';
import { orderFitsNoOven } from './rules/order-fits-no-oven';
import { orderNoSize } from './rules/order-no-size';
import { orderNotWhole } from './rules/order-not-whole';
import { orderTooManyLoads } from './rules/order-too-many-loads';
import { outOfTheCold } from './rules/out-of-the-cold';
import { ovenCool } from './rules/oven-cool';
import { ovenHot } from './rules/oven-hot';
import { ovenTemperatureOdd } from './rules/oven-temperature-odd';
import { partCycle } from './rules/part-cycle';
import { partMissing } from './rules/part-missing';
import { partShort } from './rules/part-short';
import { partTwice } from './rules/part-twice';
import { partUnused } from './rules/part-unused';
import { piecesOdd } from './rules/pieces-odd';
import { planNoOrders } from './rules/plan-no-orders';
import { planNoOven } from './rules/plan-no-oven';
import { planNoTime } from './rules/plan-no-time';
import { planTimeTwice } from './rules/plan-time-twice';
import { planTimeWrong } from './rules/plan-time-wrong';
import { planTwoTimes } from './rules/plan-two-times';
import { portionsNotWhole } from './rules/portions-not-whole';
import { prefermentWarm } from './rules/preferment-warm';
import { prefermentedHigh } from './rules/prefermented-high';
import { preheatCooler } from './rules/preheat-cooler';
import { preheatShort } from './rules/preheat-short';
import { rawDoughTasted } from './rules/raw-dough-tasted';
import { recordCoreLow } from './rules/record-core-low';
import { recordDateTwice } from './rules/record-date-twice';
import { recordLossDiffers } from './rules/record-loss-differs';
import { recordOdd } from './rules/record-odd';
import { retardTooLong } from './rules/retard-too-long';
import { retardTooWarm } from './rules/retard-too-warm';
import { retardWithYeast } from './rules/retard-with-yeast';
import { riseTooLong } from './rules/rise-too-long';
import { riseTooShort } from './rules/rise-too-short';
import { roomNotSaid } from './rules/room-not-said';
import { roomOdd } from './rules/room-odd';
import { ryeWithoutAcid } from './rules/rye-without-acid';
import { saltHigh } from './rules/salt-high';
import { saltLow } from './rules/salt-low';
import { scaldTooCool } from './rules/scald-too-cool';
import { shareOfNothing } from './rules/share-of-nothing';
import { soakerDry } from './rules/soaker-dry';
import { spiceSlowsYeast } from './rules/spice-slows-yeast';
import { starterHydrationOdd } from './rules/starter-hydration-odd';
import { stepsOutOfOrder } from './rules/steps-out-of-order';
import { styleNotMet } from './rules/style-not-met';
import { styleUnknown } from './rules/style-unknown';
import { sugarHigh } from './rules/sugar-high';
import { sugarSlowsYeast } from './rules/sugar-slows-yeast';
import { temperatureOdd } from './rules/temperature-odd';
import { tinTooEmpty } from './rules/tin-too-empty';
import { tinTooFull } from './rules/tin-too-full';
import { totalLeavesOut } from './rules/total-leaves-out';
import { unitSlip } from './rules/unit-slip';
import { unknownIngredient } from './rules/unknown-ingredient';
import { toDecide } from './rules/to-decide';
import { unreadable } from './rules/unreadable';
import { useItself } from './rules/use-itself';
import { useNotBake } from './rules/use-not-bake';
import { useNotFound } from './rules/use-not-found';
import { useOutside } from './rules/use-outside';
import { usesNotWeighed } from './rules/uses-not-weighed';
import { vagueAmount } from './rules/vague-amount';
import { waterImpossible } from './rules/water-impossible';
import { waterNeedsIce } from './rules/water-needs-ice';
import { waterOnHotGlass } from './rules/water-on-hot-glass';
import { waterTooHot } from './rules/water-too-hot';
import { yeastHigh } from './rules/yeast-high';
import { yieldsOdd } from './rules/yields-odd';

/** What checks are about, in the order of the documentation. */
export const topics: readonly { readonly title: string; readonly checks: readonly Check[] }[] = [
  {
    title: 'What cannot be read',
    checks: [
      ...unreadable,
      mergeConflict,
      toDecide,
      noFormula,
    ],
  },
  {
    title: 'What cannot be weighed',
    checks: [
      noSize,
      makesNothing,
      flourNotWhole,
      makesDisagrees,
      needsAWeight,
      unknownIngredient,
      vagueAmount,
      shareOfNothing,
      contradiction,
      partMissing,
      partUnused,
      partShort,
      partCycle,
      partTwice,
      totalLeavesOut,
    ],
  },
  {
    title: 'Slips of the pen',
    checks: [
      unitSlip,
      amountZero,
      noFlour,
      hydrationImpossible,
      noteChangesIngredient,
      starterHydrationOdd,
      compositionOverWhole,
      containsUnknown,
      ingredientOdd,
      yieldsOdd,
      piecesOdd,
      lossOdd,
      lossUnusual,
      frictionOdd,
      altitudeOdd,
      roomOdd,
      temperatureOdd,
      durationZero,
      durationOdd,
    ],
  },
  {
    title: 'The dough',
    checks: [
      saltHigh,
      saltLow,
      hydrationHigh,
      hydrationLow,
      sugarHigh,
      fatHigh,
      fatBeforeGluten,
      cocoaLoad,
      inclusionLoad,
      inclusionsWet,
      inclusionsEarly,
      absorbersDry,
      soakerDry,
      scaldTooCool,
      flourWeak,
      styleNotMet,
    ],
  },
  {
    title: 'The leaven',
    checks: [
      noLeaven,
      yeastHigh,
      sugarSlowsYeast,
      spiceSlowsYeast,
      chemicalLeavenHigh,
      ryeWithoutAcid,
      prefermentedHigh,
      prefermentWarm,
      cultureTooWarm,
      levainNotRipe,
      levainPastPeak,
      riseTooShort,
      riseTooLong,
      retardTooLong,
      retardTooWarm,
      retardWithYeast,
    ],
  },
  {
    title: 'Temperature',
    checks: [
      waterTooHot,
      waterNeedsIce,
      waterImpossible,
      doughTemperatureMissed,
      doughTooWarm,
      butterMelts,
    ],
  },
  {
    title: 'The method',
    checks: [
      portionsNotWhole,
      foldOutsideBulk,
      foldTooLate,
      mixTooLong,
      stepsOutOfOrder,
      neverBaked,
      roomNotSaid,
    ],
  },
  {
    title: 'The oven',
    checks: [
      noOvenHeat,
      preheatShort,
      preheatCooler,
      ovenTemperatureOdd,
      ovenCool,
      ovenHot,
      bakeTooShort,
      bakeTooLong,
      coreLow,
      coreNeverReached,
      tinTooFull,
      tinTooEmpty,
      coolTooShort,
    ],
  },
  {
    title: 'Safety',
    checks: [
      outOfTheCold,
      eggDishCoreLow,
      eggNotCooked,
      rawDoughTasted,
      waterOnHotGlass,
    ],
  },
  {
    title: 'Bake days',
    checks: [
      planNoTime,
      planTwoTimes,
      planTimeWrong,
      planTimeTwice,
      planNoOrders,
      planNoOven,
      hoursOffOdd,
      capacityOdd,
      capacityUnknown,
      orderNoSize,
      orderNotWhole,
      orderFitsNoOven,
      orderTooManyLoads,
    ],
  },
  {
    title: 'Records of bakes',
    checks: [
      recordOdd,
      recordCoreLow,
      recordLossDiffers,
      recordDateTwice,
    ],
  },
  {
    title: 'Variants',
    checks: [
      baseCycle,
      baseFaulty,
      changeWithoutBase,
      changeMatchesNothing,
      changeUnclear,
      changeTwice,
      changeElsewhereToo,
      swapChangesKind,
      setWeightForShare,
    ],
  },
  {
    title: 'Other files, and the rest',
    checks: [
      useNotFound,
      useOutside,
      useItself,
      useNotBake,
      formulaMissing,
      formulaTwice,
      ingredientTwice,
      usesNotWeighed,
      likeMissing,
      styleUnknown,
      acceptUnused,
    ],
  },
];

/** In the same order. */
export const checks: readonly Check[] = topics.flatMap((topic) => topic.checks);
