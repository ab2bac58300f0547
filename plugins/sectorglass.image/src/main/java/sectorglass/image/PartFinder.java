package sectorglass.image;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Decides which files an image consists of, in which order, and where some are missing. */
final class PartFinder {
    private final OpenOptions options;
    private final Texts texts;
    private final List<String> remarks;

    PartFinder(OpenOptions options, Texts texts, List<String> remarks) {
        this.options = options;
        this.texts = texts;
        this.remarks = remarks;
    }

    /**
     * The parts.
     *
     * @param sequence in order; at least one has a file
     */
    record Parts(List<ImagePart> sequence) { }

    Parts find(Path path) throws ImageException {
        if (!options.parts().isEmpty()) {
            List<ImagePart> given = new ArrayList<>();
            for (Path file : options.parts()) {
                given.add(new ImagePart(file, -1, 0, size(file)));
            }
            return new Parts(placed(given));
        }
        long bytes = size(path);
        if (options.alone() || !Files.isRegularFile(path)) {
            return single(path, bytes);
        }
        PartNames.Numbered numbered;
        try {
            numbered = PartNames.of(path);
        } catch (IOException e) {
            remarks.add(texts.of("parts.folder", path.toAbsolutePath().getParent(), e.getMessage()));
            return single(path, bytes);
        }
        if (numbered.byNumber().size() < 2) {
            return single(path, bytes);
        }
        if (!numbered.plain()) {
            remarks.add(texts.of("parts.not-joined", numbered.byNumber().size(), numbered.byNumber().firstEntry().getValue().getFileName(),
                    numbered.byNumber().lastEntry().getValue().getFileName()));
            return single(path, bytes);
        }
        return set(path, numbered);
    }

    private static Parts single(Path path, long bytes) {
        return new Parts(List.of(new ImagePart(path, -1, 0, bytes)));
    }

    private Parts set(Path asked, PartNames.Numbered numbered) throws ImageException {
        Map<Long, Long> sizes = new HashMap<>();
        for (Map.Entry<Long, Path> part : numbered.byNumber().entrySet()) {
            sizes.put(part.getKey(), size(part.getValue()));
        }
        long first = numbered.byNumber().firstKey();
        long last = numbered.byNumber().lastKey();
        long usual = usual(numbered, sizes);
        List<ImagePart> found = new ArrayList<>();
        List<Long> gaps = new ArrayList<>();
        for (long number = first; number <= last; number++) {
            Path file = numbered.byNumber().get(number);
            if (file == null) {
                gaps.add(number);
            }
            found.add(new ImagePart(file, number, 0, file == null ? usual : sizes.get(number)));
        }
        remark(asked, numbered, sizes, usual, gaps);
        return new Parts(placed(found));
    }

    private void remark(Path asked, PartNames.Numbered numbered, Map<Long, Long> sizes, long usual, List<Long> gaps) {
        long first = numbered.byNumber().firstKey();
        long last = numbered.byNumber().lastKey();
        Path firstFile = numbered.byNumber().get(first);
        remarks.add(texts.of("parts.joined", numbered.byNumber().size(), firstFile.getFileName(),
                numbered.byNumber().get(last).getFileName()));
        if (!firstFile.equals(asked)) {
            remarks.add(texts.of("parts.not-first", asked.getFileName(), firstFile.getFileName()));
        }
        if (first > 1) {
            remarks.add(texts.of("parts.start", first));
        }
        gaps.forEach(number -> remarks.add(texts.of("parts.gap", number, usual)));
        sizes.forEach((number, size) -> {
            if (number != last && size != usual) {
                remarks.add(texts.of("parts.size", numbered.byNumber().get(number).getFileName(), size, usual));
            }
        });
        if (sizes.get(last) > usual) {
            remarks.add(texts.of("parts.last-larger", numbered.byNumber().get(last).getFileName(), sizes.get(last), usual));
        }
        numbered.twins().forEach(twin -> remarks.add(texts.of("parts.twin", twin.getFileName())));
    }

    /** The size that most parts before the last have, the larger of equals. */
    private static long usual(PartNames.Numbered numbered, Map<Long, Long> sizes) {
        Map<Long, Integer> counts = new HashMap<>();
        long last = numbered.byNumber().lastKey();
        sizes.forEach((number, size) -> {
            if (number != last) {
                counts.merge(size, 1, Integer::sum);
            }
        });
        return counts.entrySet().stream().max(Map.Entry.<Long, Integer>comparingByValue().thenComparing(Map.Entry.comparingByKey()))
                .orElseThrow().getKey();
    }

    private static List<ImagePart> placed(List<ImagePart> parts) {
        List<ImagePart> placed = new ArrayList<>();
        long at = 0;
        for (ImagePart part : parts) {
            placed.add(new ImagePart(part.file(), part.number(), at, part.bytes()));
            at += part.bytes();
        }
        return placed;
    }

    private long size(Path file) throws ImageException {
        FileRefusal.check(texts, file, options.deviceAnyway());
        try {
            return Files.size(file);
        } catch (IOException e) {
            throw FileRefusal.of(texts, file, e);
        }
    }
}
