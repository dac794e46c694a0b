// Validates a glTF file with the Khronos validator and tells what it found as JSON.
const fs = require('fs');
require('gltf-validator').validateBytes(new Uint8Array(fs.readFileSync(process.argv[2])))
  .then((report) => console.log(JSON.stringify(report)));
