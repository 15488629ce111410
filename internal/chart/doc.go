// Package chart draws the book's small charts as static, accessible SVG. It
// knows nothing of beer journals: each chart takes one plain struct of numbers
// and words and gives back markup that stands in an HTML page as it is.
//
//	Fermentation  gravity and temperature against time, with a forecast
//	Condition     where the carbon dioxide comes from, against its aim
//	Interval      a result against its aim, measured by its own interval
//	Dots          one figure across gyles: a yeast's attenuation, the yields
//	Lineage       which gyle revises which
//	Left          pints left over time
//
// # What every chart promises
//
// The same input gives the same bytes. Text is text, and escaped. There is a
// <title> and a <desc>, named by aria-labelledby, whose ids begin with
// Frame.Prefix, so that several charts stand on one page. Where Frame.Desc is
// empty the chart writes a description from its numbers. The role is img; a
// Lineage or a row of Dots that holds links is a group instead, because the
// contents of an img are hidden from those who listen.
//
// Values that are not finite (or beyond a thousand million), zero times and
// years after 9999 are passed over. Where nothing is left to draw, the result
// is empty: a template may say {{with .Chart}}. No coordinate leaves the
// viewBox and no label lies on another. Long series are thinned (see thinned)
// and long lists cut, so that a chart weighs less than 20 KB; a Lineage
// may weigh more where its names and addresses are long.
//
// # Size
//
// The viewBox is 360 units wide unless Frame.Width says otherwise, and text is
// laid out for 12 units of the widest likely sans-serif. On a telephone the
// chart is about 340 px wide and its text 11.3 px. On a wide page the
// stylesheet may set smaller text (in units), since less text never collides:
// one layout serves both. A wider viewBox (to 1200) suits paper.
//
// # What the stylesheet must define
//
// Colours and strokes come from classes alone; without them SVG fills all
// shapes with black. Every chart has the class chart and one of its own name
// (chart fermentation). Below that:
//
//	.chart           width: 100%; height: auto; max-width: about 38rem
//	.chart text      12px (9px from about 44rem of page), a sans-serif,
//	                 tabular figures; fill: the soft ink
//	.chart .strong   text that matters: fill: the ink; weight 600 at most
//	.chart a .strong a label that is a link: the link colour, underlined
//	.grid            ruled lines and ticks: stroke only
//	.axis            the line that a scale stands on: stroke only, stronger
//	.line            a logger's curve, steps of pints: fill none; stroke
//	.heat            temperature: fill none; stroke, dashed
//	.forecast        the forecast line: fill none; stroke, dotted
//	.band            its interval; a card's range: fill, see-through
//	.dot             a reading: fill the paper; stroke (set on a group too)
//	.whisker         an interval: fill none; stroke
//	.hit             the room around a dot that leads somewhere: fill transparent, no stroke
//	.event           a moment marked on the time axis: stroke only, thin
//	.aim             the mark aimed at: stroke only, strong
//	.takes           what a container takes: stroke only, strong, the
//	                 warning colour
//	.part1 .part2    gas already there, gas from priming: fill
//	.part3           gas still to come: fill none; stroke, dashed
//	.vented          gas let out again: fill the paper, nearly opaque; stroke
//	.median          the middle of several results: fill none; stroke, dashed
//	.edge            a line of descent: fill none; stroke
//	.here            the gyle whose page it is: fill (a dot)
//
// Strokes look alike at any width with vector-effect: non-scaling-stroke.
package chart
