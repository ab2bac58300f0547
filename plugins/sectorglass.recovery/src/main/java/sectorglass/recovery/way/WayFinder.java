package sectorglass.recovery.way;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import sectorglass.disk.Disk;
import sectorglass.disk.Partition;
import sectorglass.disk.Volume;
import sectorglass.disk.way.FileWay;
import sectorglass.disk.way.WayBuilder;
import sectorglass.disk.way.WayStep;
import sectorglass.image.SectorImage;
import sectorglass.image.Texts;
import sectorglass.image.Window;

/** Finds ways. Reads only what stands on them. */
public final class WayFinder {
    private static final int FIRST_BYTES = 16;

    private final Disk disk;
    private final Texts texts;

    /**
     * @param disk as the survey found it
     * @param locale language of titles and sentences
     */
    public WayFinder(Disk disk, Locale locale) {
        this.disk = disk;
        texts = new Texts(WayFinder.class, locale);
    }

    /** Numbers of the volumes in which ways can be found. */
    public List<Integer> volumes() {
        List<Integer> numbers = new ArrayList<>();
        if (disk.volume() != null && disk.volume().capability(FileWay.class).isPresent()) {
            numbers.add(1);
        }
        for (Partition partition : disk.partitions()) {
            if (partition.placed() && partition.volume() != null && partition.volume().capability(FileWay.class).isPresent()) {
                numbers.add(partition.number());
            }
        }
        return numbers;
    }

    /**
     * The way to a file or folder.
     *
     * @param volume one of {@link #volumes}
     * @param path relative to the volume's root, with {@code /}, as {@link sectorglass.disk.FileTree#path} writes it; empty for the root itself
     * @return empty where the volume has no files that can be reached
     */
    public Optional<Way> way(int volume, String path) {
        Volume found = disk.volume(volume).orElse(null);
        FileWay service = found == null ? null : found.capability(FileWay.class).orElse(null);
        if (service == null) {
            return Optional.empty();
        }
        SectorImage image = disk.image();
        List<String> parts = Arrays.stream(path.split("/")).filter(part -> !part.isEmpty() && !part.equals(".")).toList();
        List<WayStep> steps = new ArrayList<>(toVolume(volume, image));
        if (stopped(steps)) {
            return Optional.of(new Way(volume, String.join("/", parts), image.sectorSize(), List.copyOf(steps), -1));
        }
        steps.addAll(service.way(parts, texts.locale()));
        long content = stopped(steps) ? -1 : steps.get(steps.size() - 1).next();
        if (content >= 0) {
            steps.addAll(content(content, image, parts.isEmpty() ? "/" : parts.get(parts.size() - 1)));
        }
        return Optional.of(new Way(volume, String.join("/", parts), image.sectorSize(), List.copyOf(steps), content));
    }

    private static boolean stopped(List<WayStep> steps) {
        return !steps.isEmpty() && steps.get(steps.size() - 1).stop() != null;
    }

    private List<WayStep> toVolume(int number, SectorImage image) {
        Partition partition = disk.volume() != null && number == 1 ? null
                : disk.partitions().stream().filter(p -> p.number() == number).findFirst().orElse(null);
        if (partition == null || partition.map() < 0) {
            return List.of();
        }
        Disk.FoundMap map = disk.maps().get(partition.map());
        return map.provider().way(map.map(), partition.entry(), image, texts.locale());
    }

    private List<WayStep> content(long at, SectorImage image, String name) {
        return WayBuilder.run(texts, way -> {
            Window first = image.window(at, (int) Math.min(FIRST_BYTES, Math.max(1, image.bytes() - at)));
            way.step("content", first.range(), null, name, at / image.sectorSize(), at % image.sectorSize());
            way.sum("lba", at + " ÷ " + image.sectorSize(), at / image.sectorSize());
            way.read("first", first.range(), first.bytes(0, first.length()), "");
            way.next(at);
        });
    }
}
