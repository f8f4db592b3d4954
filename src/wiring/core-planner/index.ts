/** Cores between two places: functions in, cables with their colours out. The door to this part. */
export type { PlannedCore } from './allocate.ts';
export { COMMON_CASES, type CommonCase } from './common-cases.ts';
export { requestOf } from './from-cable.ts';
export {
  CORE_FUNCTIONS,
  type CoreNeed,
  type CoreUse,
  FUNCTION_IDS,
  type FunctionCounts,
  type FunctionId,
} from './functions.ts';
export type { PlanNote } from './notes.ts';
export type { PlannedCable } from './partition.ts';
export { type CorePlan, planCores } from './plan.ts';
export {
  type CoreRequest,
  fragmentOf,
  NOTHING_ASKED,
  type ReadRequest,
  readFragment,
} from './request.ts';
export { ALSO_MADE, CABLE_SETS, type CableSet, setOf } from './sets.ts';
