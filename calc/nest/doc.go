// Package nest cuts rectangles from sheets and lengths from sticks, with cuts that each run right across the piece at
// hand (guillotine cuts), at the least cost, and proves how low the cost could be at all.
//
// # Model
//
// Sheets come in several sizes with costs, some limited; every cut takes a kerf; an item may be turned a quarter or not;
// an item may need one or both of its long edges on a tapered factory edge of its sheet. Everything is a whole number of
// one unit. A row of parts fits if and only if parts and sheet, each one kerf larger, fit without kerf, for after the
// last part no cut is due: the search and all bounds work in those sizes.
//
// # Bounds
//
// Solve and Bound never claim more than this proves, for guillotine cutting and any other:
//   - dual feasible functions on both sides, all pairs: identity, f0 (Martello & Vigo 1998), u(k) (Fekete & Schepers
//     2001), rounding by k (Carlier, Clautiaux & Moukrim 2007); on a square sheet half by each way of lying (doubling, as
//     Dell'Amico, Martello & Vigo 2002). O(F² n) for F functions a side, F ≤ 80 or so;
//   - the length of tapered edge that is asked for, by the same functions;
//   - with several sizes the need is covered by an exact search over numbers of sheets, within a work limit;
//   - for lengths, and for guillotine patterns where demands are high, the continuous optimum of Gilmore & Gomory (1961,
//     1963, 1965) by column generation. The simplex runs in floating point, but only proposes prices: they are rounded to
//     whole numbers, the pricing problem is solved exactly for those (knapsack by branch and bound, then
//     by lists of reachable sums; guillotine recursion over normal positions, Herz 1972, Beasley 1985), and the bound of
//     Farley (1990) follows in whole numbers.
//
// Proven means that cost and bound meet. The conjecture that a best answer is at most one above the continuous optimum
// (Scheithauer & Terno 1995) is never used as a proof.
//
// # Search
//
// A sheet in the making is a tree of least boxes rather than of rectangles in place, so that room floats: one insertion
// may widen a whole column. Several orders, each part put where it wastes least, give the first answer; parts that may
// be turned are also put all straight and all turned, and on few sheets now and then one as it is not best by itself.
// Then ruin and recreate (after Schrimpf et al. 2000; for guillotine trees Gardeyn & Wauters 2022) tries to fit all
// into a cost one lower, with late acceptance (Burke & Bykov 2017), until cost meets bound or the budget ends. One
// round costs O(parts taken out × nodes of the sheets that changed), for a part is weighed only where a sheet has a
// place as wide and as high as it. With several kinds of sheet, numbers of each that cost less are also held as they
// are for a while. Where items are asked for many times (4 on average, at most 12 a sheet), patterns of the continuous
// optimum are cut while they are whole, the rest is solved again, and only what is left in the end is searched. Lengths
// are filled stick by stick with the least rest (Gupta & Ho 1999), then rounded in the same way; in between a few
// sticks at a time are emptied and filled again, one stick fewer than the best answer has (after Fleszar & Hindi 2002).
// Seeds are fixed and budgets count work, so the answer is the same on every machine, unless Budget.Stop cuts in.
//
// From 120 parts on, all from one size of sheet, sheets are first filled one after another, each by ruin and recreate of
// its own from all parts that are left (in outline the sequential value correction of Belov & Scheithauer 2007). Where two
// or three parts fill a room better than one, they go in together: with 1,000 parts of 15 to 70 % of the sheet's sides
// the first twenty sheets then lose 0.4 % instead of 1.3 %. A part is worth its area and the more the larger it is, in
// five ways; without that the large ones are left for the end, which costs a sixth more sheets. Then turns are taken:
// one or two sheets are emptied and filled again from their own parts and those without a sheet, as refill does with
// sticks; and ruin and recreate over all. Where few sheets are needed (40) and patterns are made, whole numbers of them
// are also chosen together, by depth first search below the continuous cost of what is left.
//
// # Limits
//
// Sides below 2^40 units, 200,000 pieces. Patterns leave tapers to the search. The bound of a problem with demands of
// one is that of the functions above: gaps of one or two sheets remain open on a fifth of the public bin-packing
// instances. With every kind of sheet limited, a cutting that exists may not be found; the error then says so.
//
// # Measured
//
// Sources above are cited from memory. Times are processor time on one core of a shared machine; reached = at or below
// the best published value for guillotine cutting of the variant; no answer was more than one sheet above it:
//
//	set                    variant   instances  reached in 100 ms, in 2 s  proven  median
//	Berkey & Wang 1        oriented          50       50   50                   44   0.1 ms
//	                       turned            50       49   50                   50   0.3 ms
//	Berkey & Wang 2        oriented          50       50   50                   50   1.2 ms
//	                       turned            50       50   50                   50   0.2 ms
//	Berkey & Wang 3        oriented          50       46   49                   35    23 ms
//	                       turned            50       45   49                   41   3.8 ms
//	Berkey & Wang 5        oriented          50       47   49                   27    40 ms
//	                       turned            50       46   46                   35   5.7 ms
//	Martello & Vigo 7      oriented          50       44   48                   33   3.8 ms
//	                       turned            50       41   45                   15      2 s
//	Martello & Vigo 9      oriented          50       50   50                   40   1.4 ms
//	                       turned            50       50   50                   50   2.1 ms
//	all six                oriented         300      287  296                  229
//	                       turned           300      281  290                  241
//
//	set                    variant   instances  reached      proven  median   longest
//	Beasley gcut, bins     oriented         13   13 in 30 ms*     8   0.9 ms
//	                       turned           13   13 in 30 ms      9   3.6 ms
//	Cintra et al. gcut-d   oriented         12   12, sum 5054    12    26 ms   0.2 s
//	                       turned           12   12, sum 4680    12   170 ms   0.7 s
//	cut-up sheets, kerf    oriented         20   16 in 5 s       16   0.6 s
//	cut-up sheets          turned           20   17 in 5 s       17   0.6 s
//	Falkenauer U           –                60   60              60   1.7 ms  0.01 s
//	Scholl 1               –               720  720             720   0.6 ms  0.02 s
//	Schwerin 1             –               100  100             100   0.6 ms  0.04 s
//	Wäscher & Gau          –                17   17              15   0.7 ms  1.0 s
//	battens, four lengths  –                10   10               8   3.4 ms  1.0 s
//	triplets, drawn        –                20   20 in 2 s       20            1.1 s
//	Scholl 3, drawn        –                 8    4 in 2 s, 6 in 4 s
//	large staged, 119–325  oriented         20   16 in 2 s
//
//	parts of many sizes, drawn, oriented           parts   ruin and recreate alone   now   bound
//	as Berkey & Wang 3, 2 s                        1,000                       218   215     211
//	as Berkey & Wang 5, 2 s                          300                        84    84      82
//	                                               1,000                       260   258     254
//	as Martello & Vigo 7, 2 s                        300                        76    75      74
//	sides of 15–70 %, kerf, 2 s                    1,000                       189   185     182
//	sides of 10–50 %, kerf, 6 M work    150, 300, 600, both                    202   195     192
//
// The rows above the last table are of the state before sheets were filled one by one and patterns chosen together; of
// them only the ones with 120 parts or more from one size of sheet can have changed since. How far the bounds of the last
// table lie below what can be cut is not known. Three sizes of sheet with prices: at the least cost, as an exact solver
// (COIN-OR CBC) finds it from every filling, in 98 of 100 small cases with the default work before patterns were chosen
// together; one of the other two is met since.
//
// (*) One value better than the published one; so is one of class 2 oriented. The published sum for gcut-d oriented is
// 5054 as well, and proven here for guillotine cutting of any number of stages. Cut-up sheets that were missed are one
// above; they have 2 to 16 sheets. The turned rows of gcut are of an earlier state, with fewer rounds in the same time.
package nest
