/** The age of kept results is found without reading them: some are tens of megabytes long. Frozen text. */
export const keptResultAge = `
CREATE INDEX kept_result_age ON kept_result (made_at, key);
`;
