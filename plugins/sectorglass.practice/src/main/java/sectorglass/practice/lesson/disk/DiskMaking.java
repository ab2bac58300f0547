package sectorglass.practice.lesson.disk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;

import sectorglass.decode.FormatCatalogue;
import sectorglass.disk.Disk;
import sectorglass.disk.Survey;
import sectorglass.image.ByteRange;
import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.ReadMap;
import sectorglass.image.ReadState;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.make.DiskMaker;
import sectorglass.make.SparseFile;
import sectorglass.practice.lesson.LessonException;
import sectorglass.practice.lesson.place.Expressions;
import sectorglass.practice.lesson.place.Ground;

/** Makes a lesson disk: the sound disk, then its damages, then the map of what was read. */
public final class DiskMaking {
    private final DiskPlan plan;

    private record Change(long at, byte[] bytes) { }

    /** Makes this disk. */
    public DiskMaking(DiskPlan plan) {
        this.plan = plan;
    }

    /**
     * Writes the image and, where something counts as not read, the read map.
     *
     * @throws IOException if a file cannot be written
     * @throws LessonException if the plan does not fit itself
     */
    public void write(Path image, Path readMap) throws IOException {
        try {
            DiskMaker.withoutPlaces().make(plan.description(), image);
        } catch (IllegalArgumentException e) {
            throw new LessonException("the disk " + plan.name() + " cannot be made: " + e.getMessage(), e);
        }
        Files.deleteIfExists(readMap);
        if (plan.damages().isEmpty() && plan.unread().isEmpty()) {
            return;
        }
        List<Change> changes = new ArrayList<>();
        try (OpenImage opened = Images.open(image, OpenOptions.DEFAULT.withAlone(true).withSectorSize(plan.description().sectorSize()))) {
            Disk disk = Survey.of(opened, Progress.NONE);
            Ground ground = new Ground(disk, FormatCatalogue.ofProviders());
            for (DiskPlan.Damage damage : plan.damages()) {
                changes.add(change(damage, ground));
            }
            if (!plan.unread().isEmpty()) {
                states(ground, opened.sectors()).save(readMap);
            }
        } catch (ImageException e) {
            throw new LessonException(e.getMessage(), e);
        }
        try (SparseFile file = SparseFile.open(image)) {
            for (Change change : changes) {
                file.write(change.at(), change.bytes());
            }
        }
    }

    private static Change change(DiskPlan.Damage damage, Ground ground) {
        ByteRange where = Expressions.place(damage.place()).in(ground).range();
        if (damage.bytes() != null) {
            return new Change(where.start(), damage.bytes());
        }
        byte[] bytes = new byte[(int) Math.min(where.length(), 1 << 20)];
        if (damage.number() == null) {
            Arrays.fill(bytes, (byte) damage.fill());
        } else {
            long number = Expressions.number(damage.number()).in(ground);
            for (int i = 0; i < Math.min(8, bytes.length); i++) {
                bytes[i] = (byte) (number >>> 8 * i);
            }
        }
        return new Change(where.start(), bytes);
    }

    private ReadMap states(Ground ground, long sectors) {
        SectorRanges read = SectorRanges.of(0, sectors);
        List<List<SectorRange>> states = new ArrayList<>();
        for (int i = 0; i < ReadState.values().length; i++) {
            states.add(new ArrayList<>());
        }
        for (DiskPlan.Unread unread : plan.unread()) {
            SectorRange where = Expressions.place(unread.place()).in(ground).range().sectors(ground.sectorSize());
            states.get(unread.state().ordinal()).add(where);
            read = read.minus(SectorRanges.of(where));
        }
        return ReadMap.of(read, of(states, ReadState.FAILED), of(states, ReadState.SKIPPED), of(states, ReadState.UNREAD));
    }

    private static SectorRanges of(List<? extends Collection<SectorRange>> states, ReadState state) {
        return SectorRanges.of(new ArrayList<>(states.get(state.ordinal())));
    }
}
