export * from './amplifier.ts';
export * from './capture.ts';
export * from './journal.ts';
export * from './log.ts';
export * from './stage.ts';
export * from './supply.ts';
export * from './version.ts';
