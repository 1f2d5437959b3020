export * from '../en/desk.ts';
