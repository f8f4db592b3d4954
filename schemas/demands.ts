/** What a person, a thermostat or a clock asks for. Each is a demand on the boiler. */
export const DEMANDS = ['heating', 'hot water', 'heating by hand', 'frost protection'] as const;
export type Demand = (typeof DEMANDS)[number];
