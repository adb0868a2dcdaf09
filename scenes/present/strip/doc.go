// Package strip is the scene "sinus strip": the coronary sinus unrolled beside the annulus, P1 on the left, P3 and the
// mouth on the right, with height, distance, artery, band, contact force, narrowing, and what more shortening would do.
//
// Heights and distances are measured on the solved shapes, from each point of the vein's centreline to the nearest
// point of the annulus seen from the atrium. Force and narrowing are the report's own values by station; the soft
// tissue is the patient's own parameter, not computed.
package strip
