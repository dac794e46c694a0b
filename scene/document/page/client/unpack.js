// What the page brings along: one packed text with all bodies of the room, and one grey picture with the materials'
// patterns one above the other.

// unpack reads the packed text of an element: base64 of a deflated JSON text.
async function unpack(id) {
  const packed = Uint8Array.from(atob(document.getElementById(id).textContent.trim()), (c) => c.charCodeAt(0));
  const plain = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate-raw"));
  return JSON.parse(await new Response(plain).text());
}

// unpackPatterns gives the tones of all patterns, each so many a side, as a texture with a layer for each.
async function unpackPatterns(id, side) {
  const picture = new Image();
  picture.src = "data:image/jpeg;base64," + document.getElementById(id).textContent.trim();
  await picture.decode();
  const layers = picture.naturalHeight / side;
  const canvas = document.createElement("canvas");
  canvas.width = side;
  canvas.height = side * layers;
  const c = canvas.getContext("2d", { willReadFrequently: true });
  c.drawImage(picture, 0, 0);
  const rgba = c.getImageData(0, 0, side, side * layers).data;
  const tones = new Uint8Array(side * side * layers);
  for (let i = 0; i < tones.length; i++) tones[i] = rgba[4 * i];
  const texture = new THREE.DataArrayTexture(tones, side, side, layers);
  texture.format = THREE.RedFormat;
  texture.wrapS = texture.wrapT = THREE.RepeatWrapping;
  return smooth(texture);
}

// smooth has a texture blended between its points and its halvings.
function smooth(texture) {
  texture.minFilter = THREE.LinearMipmapLinearFilter;
  texture.magFilter = THREE.LinearFilter;
  texture.generateMipmaps = true;
  texture.anisotropy = 8;
  texture.unpackAlignment = 1;
  texture.needsUpdate = true;
  return texture;
}
