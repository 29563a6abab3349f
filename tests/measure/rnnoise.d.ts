/** The package has no types; these are what is used of its README and of RNNoise 0.2's `rnnoise.h`. */
declare module '@jitsi/rnnoise-wasm/dist/rnnoise-sync.js' {
  export interface RnnoiseModule {
    readonly ready: Promise<unknown>
    /** Memory of the module; another one whenever that has grown. */
    readonly HEAPF32: Float32Array
    _malloc(bytes: number): number
    /** @param model 0 for the one inside */
    _rnnoise_create(model: number): number
    /** 480 samples at 48 kHz, in the range of 16 bits; in and out may be one place. */
    _rnnoise_process_frame(state: number, out: number, samples: number): number
  }
  export default function createRNNWasmModuleSync(): RnnoiseModule
}
