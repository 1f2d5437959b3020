/** The one file of rate-limiter-flexible that the hub loads; its types are the package's own. */
declare module 'rate-limiter-flexible/lib/RateLimiterMemory.js' {
  export { RateLimiterMemory as default } from 'rate-limiter-flexible';
}
