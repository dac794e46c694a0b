// What the client's page uses of three.js; see DEVELOPERS.md.
export { BufferAttribute, BufferGeometry, DataArrayTexture, DataTexture, DoubleSide, GLSL3, InstancedBufferAttribute, InstancedBufferGeometry, LinearFilter, LinearMipmapLinearFilter, Mesh, PerspectiveCamera, RawShaderMaterial, RedFormat, RepeatWrapping, RGFormat, Scene, Vector2, Vector3, Vector4, WebGLRenderer } from "three";
