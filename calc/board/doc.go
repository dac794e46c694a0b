// Package board decides the layout of every zone and the cutting of every sheet together, since the number of sheets
// depends on both.
//
// The work falls into parts that each depend on little, are kept in a memo by their content, and are done on all cores
// without a trace in the answer:
//
//   - A zone by itself is listed (listing.go): its schemes, for the most promising of them the choices of end joints of every
//     row, and the least that the zone needs. After an edit only the zones that it changed are listed anew.
//   - A group, which is a room or a few small ones, is searched (search.go, group.go) by a fixed list of measures (measure.go)
//     that knows neither the project's aim nor its rate of own time.
//   - Drafts (draft.go) are whole buildings made of what was found, cut. Package calc makes the bill of each, and every aim
//     takes its best of the same bills, so that no answer can be beaten by one for another aim or rate. With full effort that
//     is by construction; promptly one draft is billed, and the other named answers are told by what the search counts.
//   - Each group's pieces are nested (sheets.go); what stands on sheets that are not full is nested once more by blocks of
//     groups (leftover.go), so that an edit leaves the cuttings of other blocks as they are. Then rooms are hung (hang.go).
//   - Groups wait for each other only where their joints must keep clear of each other, as on the faces of a partition.
//
// The neighbourhoods of the search are, in this order: the choice of one row, with that of one adjoining row where the two
// would clash; the scheme of one zone (search.go); all choices of a small wall (exact.go); each other scheme of a zone, held
// until the other zones have come to terms with it (schemes.go); one layer over another, each with the other as it stands
// (layers.go). For fewest sheets a number of them is asked for that is one less than was found, then again one less
// (target.go): ways along the rows that fit into the room left by the pairs of scales are changed at random until nothing
// lacks a place (climb.go), under other sets of courses too (courses.go), under each of them once. In buildings of few
// surfaces all this begins at the best schemes by four ways of pricing them.
//
// The archive (archive.go) is offered every complete layout that is counted, by whichever measure the search went when it was
// met, and keeps the best and the second best by each. Sheets are counted by a quick cutting (package tally), and only as far
// as they can decide; joints and pieces are charged what they come to on the bill (package worth).
//
// The bound on the sheets of a group is that of pairs of dual feasible functions (scale.go), made over all lawful ways of
// lining its zones (need.go); where that leaves a gap, of worths made for the case by column generation (pricing.go,
// columns.go). Both are proofs in whole numbers. On 80 drawn rooms of free directions and second layers that an exact solver
// took in, no bound was above its number of sheets.
//
// One budget bounds the search of a group (effort.go). Its unit, a place on a sheet that is looked at for a piece, is a few
// billionths of a second; whatever else takes long is charged at what it comes to beside that (tally.Meter). A prompt answer
// has a sum for each zone, and no more than another sum. In full a group has the same kind of sums in a building of more than
// 24 surfaces, and one large sum in smaller ones. Every search by one measure from one start gets a part of what is left, the
// first and the likeliest most of it, and within it every stage a part; what a stage leaves goes to those after it. A stage
// ends where its part is spent or nothing gets better, and leaves the best layout in place, so a good one stands early and
// each more costs bounded work. All long loops ask search.spent, which looks at the context too. Listings and nestings have
// limits of their own, by zone and by piece. Nothing goes by time, so the answer is the same on every machine.
package board
