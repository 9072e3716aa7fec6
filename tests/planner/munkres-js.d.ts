// munkres-js comes without types: pairs of row and column that cost the least together.
declare module 'munkres-js' {
  export default function munkres(costs: number[][]): [row: number, column: number][]
}
