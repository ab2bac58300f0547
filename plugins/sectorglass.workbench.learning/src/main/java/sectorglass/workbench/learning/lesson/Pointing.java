package sectorglass.workbench.learning.lesson;

import java.util.Optional;

import sectorglass.decode.FieldNode;
import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.practice.lesson.StepPlace;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.Marked;

/** Points at a place of the disk: its bytes light up, its sectors stand on the strip, its field is chosen. */
final class Pointing {
    private final Desk desk;
    private Structure applied;
    private String path;

    Pointing(Desk desk) {
        this.desk = desk;
    }

    /** Points at a place. */
    void at(StepPlace place, String by) {
        leave();
        Structure structure = place.structure();
        Optional<Structure> found = desk.open().disk().structureAt(place.range().start());
        if (structure != null && (found.isEmpty() || !found.get().format().equals(structure.format()))) {
            desk.apply(structure);
            applied = structure;
        }
        path = place.field() == null ? null : place.field().path();
        desk.goTo(place.range(), by);
        int size = desk.open().image().sectorSize();
        ByteRange shown = place.range();
        long first = shown.start() / size;
        desk.mark(new Marked(SectorRanges.of(new SectorRange(first, (shown.end() - 1) / size - first + 1)), by));
    }

    /** Takes away what was put over the disk. */
    void leave() {
        path = null;
        if (applied != null && desk.open() != null) {
            long caret = desk.caret();
            desk.move(applied.range().start());
            desk.withdraw();
            desk.move(caret);
        }
        applied = null;
    }

    /** The structure is known now: chooses the field that is meant. */
    void explained() {
        if (path == null || !desk.settled() || desk.explained() == null) {
            return;
        }
        FieldNode field = desk.explained().find(path);
        path = null;
        if (field != null && field != desk.field() && field.length() > 0 && field.firstByte() == desk.caret()) {
            desk.choose(field);
        }
    }
}
