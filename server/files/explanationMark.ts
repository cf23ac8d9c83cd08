/** First cell of the sheet that explains a template; a sheet that begins with it is no table. */
export const explanationMark = 'Sumpwise: how to fill in this workbook';
