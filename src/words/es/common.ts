export * from '../en/common.ts';
