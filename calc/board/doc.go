// Package board decides the layout of every zone and the cutting of every sheet together, since the number of sheets
// depends on both.
//
// The work falls into parts that each depend on little, are kept in a memo by their content, and are done on all cores
// without a trace in the answer:
//
//   - A zone by itself is listed: its schemes, for the most promising of them the choices of end joints of every row,
//     and the least that the zone needs. After an edit only the zones that it changed are listed anew.
//   - A group, which is a room or a few small ones, is searched for each of the three named answers, one choice, one pair
//     of rows or one scheme changed at a time. Sheets are counted by a quick cutting, and only as far as they can decide:
//     joints and work alone rule many changes out, and a count ends once the waste so far leaves too little. The aims
//     hand their layouts on: one may start where another ended, and each keeps the best that any has found for it. Small
//     walls are gone through completely. In buildings of few surfaces layouts are then looked for, with full effort, that
//     take one sheet less, and again one less, under other courses too; at the last number that of least joint.
//     For every aim each zone is then held to each of its other schemes until the others have come to terms with it.
//     Layers that keep clear of others are searched after them, and both again with the other as it stands, while more
//     sheets are taken than the bound.
//   - The bound on the sheets of a group is that of pairs of dual feasible functions, made over all lawful ways of lining
//     its zones; where that leaves a gap, of worths made for the case by column generation. Both are proofs in whole
//     numbers. On 80 drawn rooms of free directions and second layers that an exact solver took in, no bound was above
//     its number of sheets, 70 were proven and 78 took no more; of rooms of four walls laid across 27 in 30 were proven.
//   - Groups wait for each other only where their joints must keep clear of each other, as on the faces of a partition.
//   - Each group's pieces are nested; what stands on sheets that are not full is nested once more by blocks of groups, so
//     that an edit leaves the cuttings of other blocks as they are. Where the project asks for it, two raked pieces share
//     a rectangle that one slanted cut parts, if that saves; the search of layouts does not count on it.
//
// There are two efforts: the full one, whose answer files and documents show, and a prompt one with smaller budgets,
// whose answer stands until then. Both share the listing of zones; groups and cuttings are kept for each by itself.
//
// Budgets count work, never time, and grow with the pieces or the zones, so the whole is near-linear: package calc has the
// table. Up to 24 surfaces are searched longer in full than larger buildings are, room by room.
package board
