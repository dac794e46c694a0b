// Package board decides the layout of every zone and the cutting of every sheet together, since the number of sheets
// depends on both.
//
// The work falls into parts that each depend on little, are kept in a memo by their content, and are done on all cores
// without a trace in the answer:
//
//   - A zone by itself is listed: its schemes, for the most promising of them the choices of end joints of every row,
//     and the least that the zone needs. After an edit only the zones that it changed are listed anew.
//   - A group, which is a room or a few small ones, is searched by a fixed list of measures (measure.go) that knows neither
//     the project's aim nor its rate of own time: fewest sheets, least joint, and money with own time on a ladder of rates.
//     Its neighbourhoods change one row, one pair of adjoining rows or the scheme of one zone at a time; small walls are gone
//     through completely. In buildings of few surfaces one sheet less, and again one less, is then asked for, under other
//     courses too; each zone is held to each of its other schemes until the others have come to terms with it; and layers
//     that keep clear of others are searched again with the others as they stand.
//   - Sheets are counted by a quick cutting, and only as far as they can decide. Joints and pieces are charged what they come
//     to on the bill (package worth). Every complete layout that is counted is offered to the archive of its group, which
//     keeps the best by every measure, whichever was gone by when it was met.
//   - Drafts are whole buildings made of those, cut. Package calc makes the bill of each, and every aim takes its best of the
//     same bills, so that no answer can be beaten by one for another aim or rate. With full effort that is by construction;
//     promptly one draft is billed, and the other named answers are told by what the search counts. A further term of the
//     bill that layouts should be chosen by is added to quantities here, to worth, and to the bill itself.
//   - The bound on the sheets of a group is that of pairs of dual feasible functions, made over all lawful ways of lining
//     its zones; where that leaves a gap, of worths made for the case by column generation. Both are proofs in whole
//     numbers. On 80 drawn rooms of free directions and second layers that an exact solver took in, no bound was above
//     its number of sheets (measured before the archive came).
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
