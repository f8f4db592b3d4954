import type { CheckName } from '../../../schemas/index.ts';
import type { Check } from '../types.ts';
import { approved } from './approved.ts';
import { blueSleeved } from './blue-sleeved.ts';
import { cableProtected } from './cable-protected.ts';
import { classOne } from './class-one.ts';
import { conductorSize } from './conductor-size.ts';
import { coreColours } from './core-colours.ts';
import { coreCount } from './core-count.ts';
import { cutOut } from './cut-out.ts';
import { earthFault } from './earth-fault.ts';
import { noMains } from './extra-low.ts';
import { extraLowApart } from './extra-low-apart.ts';
import { fuseRating } from './fuse-rating.ts';
import { greenYellow } from './green-yellow.ts';
import { interlock } from './interlock.ts';
import { isolation } from './isolation.ts';
import { overflow } from './overflow.ts';
import { permanentLive } from './permanent-live.ts';
import { switchedNeutral } from './switched-neutral.ts';
import { voltDrop } from './volt-drop.ts';

/** Every check by the name standards call it. */
export const CHECKS: { readonly [C in CheckName]: Check<C> } = {
  'fuse rating': fuseRating,
  'minimum conductor size': conductorSize,
  'single point of isolation': isolation,
  'permanent live not through a control': permanentLive,
  'overflow interlock': overflow,
  'no switched neutral': switchedNeutral,
  'green-yellow only as protective conductor': greenYellow,
  'blue core as a live sleeved': blueSleeved,
  'class I earthed': classOne,
  'no mains on extra-low voltage': noMains,
  'core colours': coreColours,
  'approved devices': approved,
  'safety cut-out': cutOut,
  'system interlock': interlock,
  'cable core count': coreCount,
  'earth fault cleared': earthFault,
  'cable protected': cableProtected,
  'volt drop': voltDrop,
  'extra-low voltage apart': extraLowApart,
};
