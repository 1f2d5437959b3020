export * from '../en/findings.ts';
