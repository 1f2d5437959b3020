export * from '../en/setup.ts';
