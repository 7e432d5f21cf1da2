// Package pdf writes figures as pages of a PDF document at true size.
//
// # Model
//
// Every figure is a page of its paper's size. Its millimetres are the numbers in
// the file: one matrix at the head of the page turns them into points of 1/72
// inch. Words are outlines, so no font is needed; their text is kept beside
// them for those who search or listen. The document asks viewers not to scale
// it when it is printed (PrintScaling None, PDF 1.6); people can still choose to,
// so a page that must be true to size needs marks to be measured.
//
// # Accuracy
//
// Coordinates have six decimals of a millimetre, words four. An arc becomes
// cubic curves of at most 15 degrees that leave it by less than 6e-9 of its
// radius: 1e-6 mm at 150 mm. PDF has no arcs.
//
// # Reproducible
//
// There is no date and no random number in the file: the same pages give the
// same bytes.
//
// # Failure
//
// Errors are those of the figures, with the page, and of writing. No function
// panics.
package pdf
