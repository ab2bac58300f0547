package sectorglass.workbench.sectors;

import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.recovery.Job;
import sectorglass.workbench.places.Clusters;
import sectorglass.workbench.places.PlaceLabels;

/**
 * What the canvas shows besides bytes.
 *
 * @param image the sectors
 * @param caret image byte of the caret
 * @param selection selected bytes, or null
 * @param field bytes of the field at the caret, or null
 * @param focus whether the canvas has the keyboard
 * @param labels writes the places beside the rows; null where nothing is open
 * @param clusters tells where clusters begin; null where nothing is open
 * @param marks the marks that hold a byte of the view
 */
record View(SectorImage image, long caret, ByteRange selection, ByteRange field, boolean focus, PlaceLabels labels, Clusters.Finder clusters,
        List<Job.Mark> marks) { }
