// The checksum at the end of every line from a board, so that a damaged line is known as damaged.

/**
 * CRC-16/CCITT-FALSE of a text in ASCII: polynomial 1021, start FFFF, nothing mirrored, nothing added.
 *
 * @returns four upper-case hexadecimal digits.
 * @example lineChecksum("123456789") // "29B1"
 *
 * Source: Catalogue of parametrised CRC algorithms, CRC-16/IBM-3740, also known as CCITT-FALSE.
 */
export function lineChecksum(text: string): string {
  let crc = 0xffff;
  for (let i = 0; i < text.length; i++) {
    crc ^= (text.charCodeAt(i) & 0xff) << 8;
    for (let bit = 0; bit < 8; bit++) crc = (crc & 0x8000 ? (crc << 1) ^ 0x1021 : crc << 1) & 0xffff;
  }
  return crc.toString(16).toUpperCase().padStart(4, "0");
}
