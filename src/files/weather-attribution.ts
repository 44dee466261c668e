/** The lines that the licence of gridded data asks for, printed with all that is made from them. */
import { basename } from 'pathe';
import { attributionOf } from './weather-variables.ts';

/** What a weather file says of its origin; empty texts where it says nothing. */
export interface Origin {
  /** Global attributes that name the producer, such as `institution` and `GRIB_centre`. */
  readonly producers: readonly string[];
  /** Global attributes that tell how the file was made: `title`, `source`, `history`. */
  readonly history: readonly string[];
  /** Whether the file has `expver`, by which the Climate Data Store tells final from preliminary ERA5. */
  readonly hasExpver: boolean;
  /** First time, seconds since 1970. */
  readonly firstS: number;
}

/**
 * The lines of `NAME.attribution.txt` beside the file; else, where the file says that it comes from ECMWF, the text that
 * the licence of its data asks for: ERA5 (Licence to use Copernicus Products, clause 5, from memory), or the name of the
 * producer.
 */
export function attributionOfGrid(path: string, origin: Origin): string[] {
  const beside = attributionOf(path);
  if (beside.length > 0) return beside;
  const ofEcmwf = origin.producers.some((text) => /^ecm(f|wf)$|European Centre for Medium-Range/i.test(text));
  const ofStore = origin.history.some((text) => /era5|adaptor\.mars\.internal/i.test(text));
  if (ofStore || (ofEcmwf && (origin.hasExpver || /era5/i.test(basename(path)))))
    return [era5(new Date(origin.firstS * 1000).getUTCFullYear())];
  return ofEcmwf ? [ecmwf] : [];
}

function era5(year: number): string {
  return `Contains modified Copernicus Climate Change Service information ${year} (ERA5 hourly data on pressure levels, Hersbach et al., DOI 10.24381/cds.bd0915c6). Neither the European Commission nor ECMWF is responsible for any use of it.`;
}

const ecmwf =
  'Made from data of the European Centre for Medium-Range Weather Forecasts (ECMWF, www.ecmwf.int), which is not responsible for any use of it.';
