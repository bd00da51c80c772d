import protobuf from 'protobufjs';

/**
 * Writes ONNX models (the open format of neural networks, onnx.ai; IR version 8, operator set 17): values and nodes are added
 * one after the other. Numbers of any size go into one file of weights that several models share, so that a reader holds them once.
 */

/** The part of onnx.proto (ONNX project, Apache-2.0) that is written here. */
const SCHEMA = protobuf.parse(`syntax = "proto3"; package onnx;
  message AttributeProto { string name = 1; float f = 2; int64 i = 3; bytes s = 4; repeated int64 ints = 8; int32 type = 20; }
  message NodeProto { repeated string input = 1; repeated string output = 2; string name = 3; string op_type = 4; repeated AttributeProto attribute = 5; string domain = 7; }
  message Entry { string key = 1; string value = 2; }
  message TensorProto { repeated int64 dims = 1; int32 data_type = 2; string name = 8; bytes raw_data = 9; repeated Entry external_data = 13; int32 data_location = 14; }
  message Dimension { int64 dim_value = 1; string dim_param = 2; }
  message TensorShapeProto { repeated Dimension dim = 1; }
  message TensorType { int32 elem_type = 1; TensorShapeProto shape = 2; }
  message TypeProto { TensorType tensor_type = 1; }
  message ValueInfoProto { string name = 1; TypeProto type = 2; }
  message GraphProto { repeated NodeProto node = 1; string name = 2; repeated TensorProto initializer = 5; repeated ValueInfoProto input = 11; repeated ValueInfoProto output = 12; }
  message OperatorSetIdProto { string domain = 1; int64 version = 2; }
  message ModelProto { int64 ir_version = 1; string producer_name = 2; GraphProto graph = 7; repeated OperatorSetIdProto opset_import = 8; }`, { keepCase: true }).root;

const ELEMENT = { float: 1, int8: 3, int64: 7 } as const;
type Element = keyof typeof ELEMENT;
type Attribute = number | string | { readonly float: number } | { readonly ints: readonly number[] };
const ATTRIBUTE = { float: 1, int: 2, string: 3, ints: 7 } as const;
/** A value of the graph, by its name. */
export type Value = string;

/** Numbers below this stay inside the model. */
const SMALL = 1024;
/** Where a weight begins in the file: the reader may map it into memory. */
const ALIGNMENT = 64;

/** One file of numbers, growing. */
export class WeightFile {
  readonly name: string;
  private readonly parts: Uint8Array[] = [];
  private size = 0;

  constructor(name: string) { this.name = name; }

  add(bytes: Uint8Array): { offset: number; length: number } {
    const offset = this.size;
    const padded = new Uint8Array(Math.ceil(bytes.length / ALIGNMENT) * ALIGNMENT);
    padded.set(bytes);
    this.parts.push(padded);
    this.size += padded.length;
    return { offset, length: bytes.length };
  }

  bytes(): Uint8Array { return Buffer.concat(this.parts); }
}

export class OnnxGraph {
  private readonly file: WeightFile;
  private readonly nodes: object[] = [];
  private readonly constants: object[] = [];
  private readonly inputs: object[] = [];
  private readonly outputs: object[] = [];
  private count = 0;

  constructor(file: WeightFile) { this.file = file; }

  /** @param shape sizes, or names of sizes that differ from run to run */
  input(name: string, element: Element, shape: readonly (number | string)[]): Value {
    this.inputs.push(described(name, element, shape));
    return name;
  }

  output(name: string, value: Value, element: Element, shape: readonly (number | string)[]): void {
    this.nodes.push({ op_type: 'Identity', input: [value], output: [name], name });
    this.outputs.push(described(name, element, shape));
  }

  floats(shape: readonly number[], data: ArrayLike<number>): Value { return this.constant('float', shape, Float32Array.from(data)); }
  integers(shape: readonly number[], data: readonly number[]): Value { return this.constant('int64', shape, BigInt64Array.from(data, BigInt)); }
  int8(shape: readonly number[], data: Int8Array): Value { return this.constant('int8', shape, data); }

  /** Adds an operator with one result. `domain` is empty for the standard's own operators. */
  node(operator: string, inputs: readonly Value[], attributes: Readonly<Record<string, Attribute>> = {}, domain = ''): Value {
    const output = this.newName('v');
    this.nodes.push({ op_type: operator, input: inputs, output: [output], name: output, domain, attribute: Object.entries(attributes).map(([name, value]) => attribute(name, value)) });
    return output;
  }

  /** The model, without the numbers that went into the file of weights. */
  bytes(name: string): Uint8Array {
    const model = SCHEMA.lookupType('onnx.ModelProto');
    return model.encode(model.fromObject({
      ir_version: 8, producer_name: 'lumbrical', opset_import: [{ domain: '', version: 17 }, { domain: 'com.microsoft', version: 1 }],
      graph: { name, node: this.nodes, initializer: this.constants, input: this.inputs, output: this.outputs },
    })).finish();
  }

  private newName(kind: string): string { this.count += 1; return `${kind}${this.count}`; }

  private constant(element: Element, dims: readonly number[], data: Float32Array | BigInt64Array | Int8Array): Value {
    const name = this.newName('c');
    const bytes = new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
    if (bytes.length < SMALL) this.constants.push({ name, dims, data_type: ELEMENT[element], raw_data: bytes });
    else {
      const { offset, length } = this.file.add(bytes);
      const external_data = Object.entries({ location: this.file.name, offset, length }).map(([key, value]) => ({ key, value: String(value) }));
      this.constants.push({ name, dims, data_type: ELEMENT[element], data_location: 1, external_data });
    }
    return name;
  }
}

const described = (name: string, element: Element, shape: readonly (number | string)[]): object =>
  ({ name, type: { tensor_type: { elem_type: ELEMENT[element], shape: { dim: shape.map((size) => (typeof size === 'number' ? { dim_value: size } : { dim_param: size })) } } } });

function attribute(name: string, value: Attribute): object {
  if (typeof value === 'number') return { name, i: value, type: ATTRIBUTE.int };
  if (typeof value === 'string') return { name, s: new TextEncoder().encode(value), type: ATTRIBUTE.string };
  return 'float' in value ? { name, f: value.float, type: ATTRIBUTE.float } : { name, ints: value.ints, type: ATTRIBUTE.ints };
}
