import { config } from 'zod';

// zod tries whether it may compile its checks by eval, which the page's policy forbids and reports.
config({ jitless: true });
