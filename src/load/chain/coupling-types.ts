/** What capacitors around a stage do to low frequencies. Hertz and ohms. */

/** The step that a bypass capacitor of limited size makes in the response. */
export interface Shelf {
  /** Below it the gain is that without the capacitor. */
  lowerHz: number;
  /** Above it the gain is that with the capacitor. */
  upperHz: number;
  depthDb: number;
  /** Where the gain is 3 dB below that of high frequencies; null where the whole step is less. */
  minus3DbHz: number | null;
}

export interface Coupling {
  /** Of the stage towards its load: plate resistance beside the plate resistor. */
  outputOhm: number;
  /** −3 dB of coupling capacitor and next grid leak; null without one of them. */
  couplingHz: number | null;
  /** Null without a bypass capacitor of stated size. */
  shelf: Shelf | null;
}
