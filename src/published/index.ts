/** Values from outside the project, each with its source: the door to this room. */
export * from './cables.ts';
export * from './capacitance.ts';
export * from './certainty.ts';
export * from './colours.ts';
export * from './conductors.ts';
export * from './dead-tests.ts';
export * from './disconnection.ts';
export * from './emergency.ts';
export * from './instruments.ts';
export * from './protection.ts';
export * from './source.ts';
export * from './supply.ts';
