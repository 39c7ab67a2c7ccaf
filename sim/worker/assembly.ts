/**
 * Shim arithmetic that is cheap enough for the app's own thread: the app reaches sim/assembly here and nowhere else.
 */
import { transferForBacklash } from '../assembly/backlashTransfer.ts';
import { explainPinionShim, explainSides } from '../assembly/explain.ts';
import { carrierPreloadChange, poseOfFitment } from '../assembly/fitment.ts';
import { fittedAtDesign, fittedNow } from '../assembly/hardware.ts';
import { pinionInFromShim, pinionPreloadEffect, pinionShimSign } from '../assembly/pinionDepth.ts';
import {
  fineness,
  preloadChange,
  realSetting,
  ringAwayFromSides,
  settingForPush,
  sidePush,
  sidesForRingAway,
  travelPerNotch,
} from '../assembly/sides.ts';
import { nearestTotal, nextTotal, possibleTotals } from '../assembly/stock.ts';

export {
  carrierPreloadChange,
  explainPinionShim,
  explainSides,
  fineness,
  fittedAtDesign,
  fittedNow,
  nearestTotal,
  nextTotal,
  pinionInFromShim,
  pinionPreloadEffect,
  pinionShimSign,
  poseOfFitment,
  possibleTotals,
  preloadChange,
  realSetting,
  ringAwayFromSides,
  settingForPush,
  sidePush,
  sidesForRingAway,
  transferForBacklash,
  travelPerNotch,
};
