export * from '../en/door.ts';
