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
     * A part to be opened.
     *
     * @param file null where it is missing
     * @param number in its name, or -1
     * @param bytes its size as far as known before opening
     * @param fixed whether it stands for exactly that many bytes whatever the size of its file
     */
    record Planned(Path file, long number, long bytes, boolean fixed) { }

    List<Planned> find(Path path) throws ImageException {
        if (options.partList() != null) {
            return listed(options.partList());
        }
        if (!options.parts().isEmpty()) {
            List<Planned> given = new ArrayList<>();
            for (GivenPart part : options.parts()) {
                boolean fixed = part.bytes() != GivenPart.WHOLE;
                if (part.file() == null) {
                    remarks.add(texts.of("parts.given-missing", given.size() + 1, part.bytes()));
                } else {
                    FileRefusal.check(texts, part.file(), options.deviceAnyway());
                }
                given.add(new Planned(part.file(), -1, fixed ? part.bytes() : size(part.file()), fixed));
            }
            return given;
        }
        Planned alone = new Planned(path, -1, size(path), false);
        if (options.alone() || !Files.isRegularFile(path)) {
            return List.of(alone);
        }
        PartNames.Numbered numbered;
        try {
            numbered = PartNames.of(path);
        } catch (IOException e) {
            remarks.add(texts.of("parts.folder", path.toAbsolutePath().getParent(), e.getMessage()));
            return List.of(alone);
        }
        if (!numbered.plain()) {
            if (numbered.byNumber().size() > 1) {
                remarks.add(texts.of("parts.not-joined", numbered.byNumber().size(),
                        numbered.byNumber().firstEntry().getValue().getFileName(),
                        numbered.byNumber().lastEntry().getValue().getFileName()));
            }
            return List.of(alone);
        }
        if (numbered.byNumber().size() == 1) {
            return List.of(new Planned(path, numbered.byNumber().firstKey(), alone.bytes(), false));
        }
        return set(path, numbered);
    }

    /** Parts that have appeared behind a number; found like the others, missing ones between them included. */
    List<Planned> after(Path path, long number) {
        List<Planned> found = new ArrayList<>();
        if (number < 0 || options.partList() != null || !options.parts().isEmpty() || options.alone()) {
            return found;
        }
        try {
            for (Planned part : find(path)) {
                if (part.number() > number) {
                    found.add(part);
                }
            }
        } catch (ImageException e) {
            remarks.add(e.getMessage());
        }
        return found;
    }

    private List<Planned> listed(Path list) throws ImageException {
        List<PartListFile.Entry> entries = PartListFile.read(list, texts);
        int size = options.sectorSize() != 0 ? options.sectorSize() : PartListFile.sectorSize(entries);
        remarks.add(texts.of("list.read", list, entries.size(), size));
        List<Planned> found = new ArrayList<>();
        long at = 0;
        for (PartListFile.Entry entry : entries) {
            long first = entry.start(size);
            if (first > at) {
                found.add(new Planned(null, -1, first - at, true));
                remarks.add(texts.of("list.gap", (first - at + size - 1) / size, at / size));
            }
            long bytes = entry.length(size);
            if (Files.exists(entry.file())) {
                long there = size(entry.file());
                if (there != bytes) {
                    remarks.add(texts.of(there < bytes ? "list.shorter" : "list.longer", list, entry.line(), entry.file().getFileName(),
                            there, bytes));
                }
                found.add(new Planned(entry.file(), -1, bytes, true));
            } else {
                remarks.add(texts.of("list.missing", list, entry.line(), entry.file(), entry.sectors(), entry.first()));
                found.add(new Planned(null, -1, bytes, true));
            }
            at = first + bytes;
        }
        return found;
    }

    private List<Planned> set(Path asked, PartNames.Numbered numbered) throws ImageException {
        Map<Long, Long> sizes = new HashMap<>();
        for (Map.Entry<Long, Path> part : numbered.byNumber().entrySet()) {
            sizes.put(part.getKey(), size(part.getValue()));
        }
        long usual = usual(numbered, sizes);
        List<Planned> found = new ArrayList<>();
        List<Long> gaps = new ArrayList<>();
        for (long number = numbered.byNumber().firstKey(); number <= numbered.byNumber().lastKey(); number++) {
            Path file = numbered.byNumber().get(number);
            if (file == null) {
                gaps.add(number);
            }
            found.add(new Planned(file, number, file == null ? usual : sizes.get(number), false));
        }
        remark(asked, numbered, sizes, usual, gaps);
        return found;
    }

    private void remark(Path asked, PartNames.Numbered numbered, Map<Long, Long> sizes, long usual, List<Long> gaps) {
        long first = numbered.byNumber().firstKey();
        long last = numbered.byNumber().lastKey();
        Path firstFile = numbered.byNumber().get(first);
        remarks.add(texts.of("parts.joined", numbered.byNumber().size(), firstFile.getFileName(),
                numbered.byNumber().get(last).getFileName()));
        if (!firstFile.getFileName().equals(asked.getFileName())) {
            remarks.add(texts.of("parts.not-first", asked.getFileName(), firstFile.getFileName()));
        }
        if (first > 1) {
            remarks.add(texts.of("parts.start", first));
        }
        gaps.forEach(number -> remarks.add(texts.of("parts.gap", number, usual)));
        numbered.byNumber().forEach((number, file) -> {
            if (number != last && sizes.get(number) != usual) {
                remarks.add(texts.of("parts.size", file.getFileName(), sizes.get(number), usual));
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

    private long size(Path file) throws ImageException {
        FileRefusal.check(texts, file, options.deviceAnyway());
        try {
            return Files.size(file);
        } catch (IOException e) {
            throw FileRefusal.of(texts, file, e);
        }
    }
}
