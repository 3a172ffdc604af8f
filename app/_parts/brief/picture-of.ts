const longestSide = 1600;
const quality = 0.85;

/**
 * A photo as a data URL of a size for print. Drawn anew, so that what a camera writes beside the
 * picture (place, time, whose it is) does not go along.
 */
export async function pictureOf(file: Blob): Promise<string> {
  const bitmap = await createImageBitmap(file);
  const scale = Math.min(1, longestSide / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('this browser gives no canvas');
  // Paper beneath what is transparent: JPEG knows no transparency.
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  return canvas.toDataURL('image/jpeg', quality);
}
