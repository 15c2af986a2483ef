import { prepareZXingModule, readBarcodes } from '/field/vendor/zxing-reader.js';

// The library would ask a public address for its file.
prepareZXingModule({ overrides: { locateFile: (path, folder) => path.endsWith('.wasm') ? '/field/vendor/' + path : folder + path }, fireImmediately: true });

const options = { formats: ['QRCode', 'DataMatrix'], tryHarder: true, tryRotate: true, tryInvert: true, maxNumberOfSymbols: 4 };

addEventListener('message', async ({ data: { id, pixels, width, height } }) => {
  try {
    const found = await readBarcodes(new ImageData(new Uint8ClampedArray(pixels), width, height), options);
    postMessage({ id, texts: found.filter(f => f.isValid && f.text).map(f => f.text) });
  } catch (error) {
    postMessage({ id, texts: [], problem: String(error?.message ?? error) });
  }
});
