import { z } from 'zod';

// the pages may not make code from text (content security policy), so schemas must not either
z.config({ jitless: true });
