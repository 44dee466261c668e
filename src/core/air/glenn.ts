/**
 * NASA Glenn coefficients of the species of dry air, and the mole fractions of the mixture.
 *
 * Source: McBride, Zehe, Gordon, NASA Glenn Coefficients for Calculating Thermodynamic Properties of Individual Species,
 * NASA/TP-2002-211556 (2002), species N2, O2, Ar, CO2; US Government work. Mole fractions: Gordon, NASA TP-1906 (1982),
 * as cited by the same report. The report's own species Air is fitted from 300 K only, so it is not used.
 *
 *   cp/R = a1 T^-2 + a2 T^-1 + a3 + a4 T + a5 T^2 + a6 T^3 + a7 T^4
 *   H/(R T) = -a1 T^-2 + a2 T^-1 ln T + a3 + a4 T/2 + a5 T^2/3 + a6 T^3/4 + a7 T^4/5 + b1/T
 *   S/R = -a1 T^-2/2 - a2 T^-1 + a3 ln T + a4 T + a5 T^2/2 + a6 T^3/3 + a7 T^4/4 + b2
 */

/** Molar gas constant of the report (CODATA 1986), J/(mol K). */
export const molarGasConstantGlenn = 8.31451;

export interface GlennSpecies {
  readonly name: string;
  readonly moleFraction: number;
  /** g/mol */
  readonly molarMass: number;
  /** a1 to a7, b1, b2 for 200 to 1000 K. */
  readonly cold: readonly number[];
  /** The same for 1000 to 6000 K. */
  readonly hot: readonly number[];
}

/** The species of dry air. Their mole fractions sum to 1. */
export const dryAir: readonly GlennSpecies[] = [
  {
    name: 'N2',
    moleFraction: 0.78084,
    molarMass: 28.0134,
    cold: [
      2.210371497e4, -3.81846182e2, 6.08273836, -8.53091441e-3, 1.384646189e-5, -9.62579362e-9,
      2.519705809e-12, 7.10846086e2, -1.076003744e1,
    ],
    hot: [
      5.87712406e5, -2.239249073e3, 6.06694922, -6.1396855e-4, 1.491806679e-7, -1.923105485e-11,
      1.061954386e-15, 1.283210415e4, -1.586640027e1,
    ],
  },
  {
    name: 'O2',
    moleFraction: 0.209476,
    molarMass: 31.9988,
    cold: [
      -3.42556342e4, 4.84700097e2, 1.119010961, 4.29388924e-3, -6.83630052e-7, -2.0233727e-9, 1.039040018e-12,
      -3.39145487e3, 1.84969947e1,
    ],
    hot: [
      -1.037939022e6, 2.344830282e3, 1.819732036, 1.267847582e-3, -2.188067988e-7, 2.053719572e-11,
      -8.19346705e-16, -1.689010929e4, 1.738716506e1,
    ],
  },
  {
    name: 'Ar',
    moleFraction: 0.009365,
    molarMass: 39.948,
    cold: [0, 0, 2.5, 0, 0, 0, 0, -7.45375e2, 4.37967491],
    hot: [
      2.010538475e1, -5.99266107e-2, 2.500069401, -3.99214116e-8, 1.20527214e-11, -1.819015576e-15,
      1.078576636e-19, -7.44993961e2, 4.37918011,
    ],
  },
  {
    name: 'CO2',
    moleFraction: 0.000319,
    molarMass: 44.0095,
    cold: [
      4.94365054e4, -6.26411601e2, 5.30172524, 2.503813816e-3, -2.127308728e-7, -7.68998878e-10,
      2.849677801e-13, -4.52819846e4, -7.04827944,
    ],
    hot: [
      1.176962419e5, -1.788791477e3, 8.29152319, -9.22315678e-5, 4.86367688e-9, -1.891053312e-12,
      6.33003659e-16, -3.90835059e4, -2.652669281e1,
    ],
  },
];
