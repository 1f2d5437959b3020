export * from '../en/begin.ts';
