/** What is open over the arena door's screen. */
export type DoorSheet =
  { readonly sheet: 'findings'; readonly horse: string } | { readonly sheet: 'menu' | 'weather' };
