// Package raster paints a display list into pixels on the processor: the same picture for the window, the page and
// figures, with or without a display.
//
// A Painter keeps its buffers: in the steady state (nothing new in size, glyphs or scenes) a frame allocates nothing.
// Fills and strokes are anti-aliased by exact area coverage within a pixel (summed and cut off at full cover, so
// overlapping parts of one outline are exact except inside the few pixels where their edges cross). Text is painted
// from the embedded outlines at quarter pixels along the line and whole pixels across it. Three-dimensional scenes use
// an orthographic depth buffer in float32, one value per pixel (one for four pixels when Quality is Rough, four for one
// when it is Still), so surfaces that cross are cut where they cross. Colours are blended as stored (sRGB values, not
// linear light).
//
// A Painter is not safe for concurrent use; several Painters may work at the same time.
package raster
