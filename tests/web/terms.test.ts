import { expect, test } from 'vitest';
import terms from '../../data/catalog/terms.json';

test.each(Object.entries(terms))(
  '%s is said in two sentences, with its source',
  (_id, { term, words, source }) => {
    expect(term).toMatch(/^\p{Lu}/u);
    // numbers such as 0.5 or P0016 do not end a sentence
    expect(words.split(/[.!?](?:\s|$)/).filter((part) => part !== '')).toHaveLength(2);
    expect(words.length).toBeLessThan(260);
    expect(source).toMatch(/no source|word of this program|this program|\d{2,}/);
  },
);
