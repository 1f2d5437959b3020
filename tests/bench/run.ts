/** `npm run bench -- sync|plan|kiosk|memory|import|soak [arguments]`: measures one part. Figures, no verdicts. */
const parts = {
  sync: './sync/main.ts',
  plan: './plan/main.ts',
  kiosk: './kiosk/main.ts',
  memory: './memory/main.ts',
  import: './import/main.ts',
  soak: './soak/main.ts',
} as const;

interface Bench {
  main(args: string[]): Promise<number>;
}

const [part, ...args] = process.argv.slice(2);
if (part === undefined || !Object.hasOwn(parts, part)) {
  console.error('usage: npm run bench -- sync|plan|kiosk|memory|import|soak [arguments]');
  process.exitCode = 2;
} else {
  const bench = (await import(parts[part as keyof typeof parts])) as Bench;
  process.exitCode = await bench.main(args);
}
