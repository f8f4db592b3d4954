/** What a content file may say: the door to this room. */
export { Composition } from './composition.ts';
export { DEMANDS, type Demand } from './demands.ts';
export {
  CAUSES,
  type Cause,
  Device,
  type DeviceInput,
  Terminal,
} from './device.ts';
export { Element, type ElementKind, endsOf } from './element.ts';
export { FIRM_FILE, Firm, INSTRUMENT_IDS, type OwnFeature, REGIONS } from './firm.ts';
export { Term } from './glossary.ts';
export { ISOLATED } from './isolated.ts';
export { Logic } from './logic.ts';
export { type LogicNames, namesIn } from './logic-names.ts';
export {
  HEAT_KINDS,
  MODULE_SLOTS,
  Module,
  type ModuleRule,
  NAMED_NETS,
  SERVICES,
} from './module.ts';
export * from './names.ts';
export { Opening, PEOPLE, type Person, READINGS, STANDINGS } from './opening.ts';
export { Procedure } from './procedure.ts';
export { isOverdue, Review } from './review.ts';
export { canShow, hasFuse, itemsOfSign, type SignItem } from './sign-items.ts';
export { splitReference } from './split-reference.ts';
export { SEVERITIES, Standard, type StandardInput } from './standard.ts';
export { CHECK_NAMES, type CheckName, type RuleOf, StandardRule } from './standard-rule.ts';
export { type Appearance, type Sign, SYMPTOM_GROUPS, Symptom } from './symptom.ts';
export {
  ARRANGEMENTS,
  type Cable,
  CONTROLS,
  FEATURES,
  type Mode,
  type StandardException,
  System,
  type SystemInput,
} from './system.ts';
