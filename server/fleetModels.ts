import type { Models } from '../models/assessment/models.ts';
import { condemningFile } from '../models/oil/condemningLimits.ts';
import { categoryFile } from '../models/oil/serviceCategory.ts';
import { gradeFile } from '../models/oil/gradeTable.ts';
import type { OilCatalog } from '../models/oil/oilFill.ts';
import type { Coefficients } from '../models/schema/coefficient.ts';
import { faultCodeFile, faultCodeTable } from '../models/wear/faultCode.ts';
import condemning from '../data/catalog/condemning-limits.json';
import categories from '../data/catalog/service-categories.json';
import codes from '../data/catalog/fault-codes.json';
import grades from '../data/catalog/oil-grades.json';

let catalog: OilCatalog | null = null;

/** Grades and service categories of the catalog, read once. */
function oilCatalog(): OilCatalog {
  catalog ??= { grades: gradeFile.parse(grades), categories: categoryFile.parse(categories) };
  return catalog;
}

/** The catalogs that the models work with. */
export function fleetModels(coefficients: Coefficients): Models {
  return {
    coefficients,
    faultCodes: faultCodeTable(faultCodeFile.parse(codes)),
    oilCatalog: oilCatalog(),
    condemningLimits: condemningFile.parse(condemning).limits,
  };
}
