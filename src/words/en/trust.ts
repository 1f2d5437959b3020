/** The page on which a tablet learns to trust the hub's certificate. */
export const TRUST = {
  title: 'Make this tablet trust the board · Aisle Board',
  heading: 'Make this tablet trust the board',
  why: 'Once it does, the board opens without a warning, keeps its screen awake and still opens when the hub is away. Only a tablet that belongs to the barn should do this.',
  scope:
    'The certificate counts for this barn’s own network alone: no page on the internet can use it, whoever got hold of it.',
  take: 'Take the certificate',
  compare:
    'Before you trust it, compare this number with the one on the hub’s own screen. If they differ, stop and ask.',
  open: 'It is trusted: open the board',
  steps: [
    {
      on: 'Android tablet',
      do: [
        'Tap “Take the certificate”. It is saved under Downloads.',
        'Open Settings and search for “CA certificate”.',
        'Choose “Install anyway”, then the file from Downloads.',
        'Come back here and open the board.',
      ],
    },
    {
      on: 'iPad',
      do: [
        'Tap “Take the certificate” and allow the profile to be loaded.',
        'Open Settings, tap “Profile Downloaded”, then Install.',
        'In Settings › General › About › Certificate Trust Settings, switch it on.',
        'Come back here and open the board.',
      ],
    },
    {
      on: 'Windows',
      do: [
        'Click “Take the certificate” and open the file.',
        'Choose Install Certificate, then Current User.',
        'Choose “Place all certificates in the following store”: Trusted Root Certification Authorities.',
        'Close the browser, open it again and come back to the board.',
      ],
    },
    {
      on: 'Chromium on a small computer (Linux)',
      do: [
        'Take the certificate as the user whose screen it is.',
        'Install the package libnss3-tools.',
        'Run: certutil -d sql:$HOME/.pki/nssdb -A -t "C,," -n aisle-board -i aisle-board.crt',
        'Start Chromium again.',
      ],
    },
  ],
} as const;
