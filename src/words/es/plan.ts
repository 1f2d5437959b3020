export * from '../en/plan.ts';
