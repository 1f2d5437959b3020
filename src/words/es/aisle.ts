export * from '../en/aisle.ts';
