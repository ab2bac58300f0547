package sectorglass.report.way;

import sectorglass.disk.way.Calculation;
import sectorglass.disk.way.Reading;
import sectorglass.disk.way.WayStep;
import sectorglass.recovery.way.Way;
import sectorglass.report.JsonOut;

/** A way as JSON. */
public final class WayJson {

    private WayJson() {
    }

    /** Writes a way as one value. */
    public static void write(JsonOut to, Way way) {
        to.object(() -> {
            to.field("volume", way.volume()).field("path", way.path()).field("complete", way.complete());
            to.field("contentByte", way.contentByte() < 0 ? null : way.contentByte());
            to.field("contentLba", way.contentByte() < 0 ? null : way.contentByte() / way.sectorSize());
            to.array("steps", way.steps(), s -> step(to, (WayStep) s, way.sectorSize()));
        }).line();
    }

    private static void step(JsonOut to, WayStep step, int sectorSize) {
        to.object(() -> {
            to.field("title", step.title()).field("text", step.text()).field("format", step.format());
            to.field("lba", step.where().start() / sectorSize).field("firstByte", step.where().start()).field("length", step.where().length());
            to.array("readings", step.readings(), r -> {
                Reading reading = (Reading) r;
                to.object(() -> to.field("field", reading.name()).field("lba", reading.where().start() / sectorSize)
                        .field("byte", reading.where().start() % sectorSize).field("firstByte", reading.where().start())
                        .field("length", reading.where().length()).field("hex", reading.hex()).field("value", reading.value()));
            });
            to.array("calculations", step.calculations(), c -> {
                Calculation sum = (Calculation) c;
                to.object(() -> to.field("words", sum.words()).field("numbers", sum.numbers()).field("result", sum.result()));
            });
            to.field("nextByte", step.next() < 0 ? null : step.next()).field("nextLba", step.next() < 0 ? null : step.next() / sectorSize);
            to.field("stop", step.stop());
            to.array("missing", step.missing(), r -> to.list(((sectorglass.image.SectorRange) r).first(), ((sectorglass.image.SectorRange) r).count()));
        });
    }
}
