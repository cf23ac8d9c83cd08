/** Goes up whenever results change; what changed stands in DEVELOPERS.md. */
export const modelVersion = '1.5';
