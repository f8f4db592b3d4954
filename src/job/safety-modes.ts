import { ISOLATED, splitReference } from '../../schemas/index.ts';
import { type Network, type Settled, type Simulation, settleMode } from '../circuit/index.ts';

/** Families that bring the heat, and what the interlock stops beside them. */
const HEAT: readonly string[] = ['boiler', 'heater'];
/** Families that ask for heat: what they do is no safety device's act. */
const ASKING: readonly string[] = ['supply', 'isolation', 'control', 'receiver', 'sensor'];

const INTERLOCK =
  'Interlock: with nothing calling, boiler and pump are off once any overrun has ended';

/**
 * Safety devices that a mode proves, in words: what holds the heat off there although it is asked
 * for, and the interlock where nothing asks. Each is found in the solved circuit, not by a name:
 * the heat comes when the condition that a device acts upon is taken away. A mode that nobody
 * brings about proves none.
 */
export function safetyIn(simulation: Simulation, id: string): string[] {
  const { network } = simulation;
  const mode = network.system.modes[id]!;
  if (!mode.testable || id === ISOLATED) return [];
  const heat = heatOutcomes(simulation);
  const heats = ({ outcomes }: Settled) => heat.some((outcome) => outcomes.get(outcome) === true);
  if (heat.length === 0 || heats(simulation.modes.get(id)!)) return [];
  const unusual = Object.entries(mode.conditions).filter(
    ([name, value]) => conditionOf(network, name).usual !== value,
  );
  const acting = unusual.filter(
    ([name, value]) =>
      !isAsking(network, name) &&
      heats(settleMode(network, 'trial', { ...mode.conditions, [name]: !value })),
  );
  if (acting.length > 0) return acting.map(([name]) => actText(network, name));
  const amiss = unusual.some(([name]) => {
    const { cause, presence } = conditionOf(network, name);
    return cause !== undefined || presence === true;
  });
  return amiss ? [] : [INTERLOCK];
}

/** Outcomes of what brings the heat that are seen only where something asks for it. */
function heatOutcomes({ network, modes }: Simulation): string[] {
  const working = [...modes.values()].filter(({ mode }) => mode !== ISOLATED);
  const idle = working.filter(({ mode }) => !asks(network, mode));
  return [...network.items]
    .filter(([, { device }]) => HEAT.includes(device.family))
    .flatMap(([ref, { device }]) => Object.keys(device.outcomes).map((name) => `${ref}.${name}`))
    .filter(
      (outcome) =>
        working.some(({ outcomes }) => outcomes.get(outcome) === true) &&
        idle.every(({ outcomes }) => outcomes.get(outcome) === false),
    );
}

/** Whether anything asks for heat in a mode; what a clock alone decides does not. */
const asks = (network: Network, mode: string): boolean =>
  Object.entries(network.system.modes[mode]!.conditions).some(([name, value]) => {
    const { wants, timed } = conditionOf(network, name);
    return value && wants !== undefined && !timed;
  });

function conditionOf(network: Network, reference: string) {
  const [item, name] = splitReference(reference);
  return network.items.get(item)!.device.conditions[name]!;
}

const isAsking = (network: Network, reference: string): boolean =>
  ASKING.includes(network.items.get(splitReference(reference)[0])!.device.family) ||
  conditionOf(network, reference).wants !== undefined;

function actText(network: Network, reference: string): string {
  const [ref] = splitReference(reference);
  const item = network.items.get(ref)!;
  const title = conditionOf(network, reference).title;
  return `${item.title}: stops the boiler (${title.charAt(0).toLowerCase()}${title.slice(1)})`;
}
