const numberLook = /^[-+(]?[$€£]?\s?\d[\d.,'\u00a0\u202f ]*\s?(%|[a-zµ°]{1,6}\.?)?\)?$/i;
const dateLook = /^\d{1,4}[-./]\d{1,2}[-./]\d{1,4}([ T].*)?$/;

/** True for a cell that reads like a value (a number or a date), not like the name of a column. */
export function looksLikeValue(cell: string): boolean {
  return /^\d/.test(cell) ? numberLook.test(cell) || dateLook.test(cell) : numberLook.test(cell);
}

const unitLook =
  /^[[(]?\s*(km|mi|miles|h|hrs?|hours|l|lt|ltr|litres?|liters?|qts?|gal|°?\s?[cf]|%|ppm|mg ?koh\/g|mm2?(²)?\/s|cst|a(bs)?\/cm|mm|kpa|psi|bar|rpm|1\/min|usd|eur|[$€£]|date|yyyy-mm-dd|dd\.mm\.yyyy|mm\/dd\/yyyy|-)\s*[\])]?$/i;

/** True for a cell that only names a unit of measure, as the line below the names often does. */
export function looksLikeUnit(cell: string): boolean {
  return unitLook.test(cell);
}

const totals =
  /^(grand |sub|sub-|fleet |report )?(totals?|sum|summe|gesamt|gesamtsumme|zwischensumme|total g[ée]n[ée]ral|totaux|totale|suma|totaal|razem|subtotal|average|mean|mittelwert|durchschnitt|moyenne|promedio|media|count|anzahl)\b.{0,30}$/i;

/** True for a cell with which a line of totals begins. */
export function looksLikeTotals(cell: string): boolean {
  return totals.test(cell);
}

const remark =
  /^(end of|page \d|seite \d|p[áa]gina \d|generated|printed|exported|created|report|source|note|notes|remark|disclaimer|erstellt|gedruckt|bericht|ende|g[ée]n[ée]r[ée]|imprim[ée]|fin de|fin du|rapport|impreso|generado|informe|\*|#|--|==|\()/i;

/** True for the only text of a line that reads like a footer or a remark of the report, not like a key. */
export function looksLikeRemark(cell: string): boolean {
  return remark.test(cell) || cell.length > 40;
}
