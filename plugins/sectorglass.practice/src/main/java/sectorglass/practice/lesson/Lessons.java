package sectorglass.practice.lesson;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import sectorglass.image.Providers;
import sectorglass.practice.lesson.disk.DiskMaking;
import sectorglass.practice.lesson.disk.DiskPlan;
import sectorglass.practice.lesson.read.DiskReader;
import sectorglass.practice.lesson.read.GlossaryReader;
import sectorglass.practice.lesson.read.LessonReader;

/**
 * All lessons that were found, with their disks and terms. Files with mistakes are left out and told in {@link #problems}; reading never
 * fails. Immutable.
 */
public final class Lessons {
    private final List<Lesson> all;
    private final Map<String, DiskPlan> disks;
    private final Glossary glossary;
    private final List<LessonProblem> problems;

    private Lessons(List<Lesson> all, Map<String, DiskPlan> disks, Glossary glossary, List<LessonProblem> problems) {
        this.all = List.copyOf(all);
        this.disks = disks;
        this.glossary = glossary;
        this.problems = List.copyOf(problems);
    }

    /**
     * The lessons of the product and of a teacher.
     *
     * @param folder a teacher's folder, or null; one that cannot be read is told in {@link #problems}
     */
    public static Lessons ofProviders(Path folder) {
        List<LessonPack> packs = new ArrayList<>(Providers.all(LessonPack.class));
        if (folder != null) {
            packs.add(new FolderLessons(folder));
        }
        return of(packs);
    }

    /** The lessons of these packs. A lesson, disk or term that an earlier pack has is not replaced; a second lesson of one id is told. */
    public static Lessons of(List<? extends LessonPack> packs) {
        List<LessonProblem> problems = new ArrayList<>();
        Map<String, Lesson> lessons = new LinkedHashMap<>();
        Map<String, DiskPlan> disks = new LinkedHashMap<>();
        List<GlossaryTerm> terms = new ArrayList<>();
        for (LessonPack pack : packs) {
            for (String file : files(pack, problems)) {
                if (file.endsWith(".lesson")) {
                    Lesson lesson = new LessonReader(file, problems).read(pack);
                    if (lesson != null && lessons.putIfAbsent(lesson.id(), lesson) != null) {
                        problems.add(new LessonProblem(file, 1, "There is a lesson \"" + lesson.id() + "\" already, in "
                                + lessons.get(lesson.id()).file() + ". Give this one another name."));
                    }
                } else if (file.endsWith(".disk")) {
                    DiskPlan plan = new DiskReader(file, problems).read(pack);
                    if (plan != null) {
                        disks.putIfAbsent(plan.name(), plan);
                    }
                } else if (file.endsWith(".terms")) {
                    terms.addAll(new GlossaryReader(file, problems).read(pack));
                }
            }
        }
        List<Lesson> playable = new ArrayList<>();
        for (Lesson lesson : lessons.values()) {
            if (disks.containsKey(lesson.disk())) {
                playable.add(lesson);
            } else {
                problems.add(new LessonProblem(lesson.file(), 1, "There is no disk \"" + lesson.disk() + "\". Known: "
                        + String.join(", ", disks.keySet()) + "."));
            }
        }
        playable.sort(Comparator.comparingInt(Lesson::order).thenComparing(Lesson::id));
        return new Lessons(playable, disks, new Glossary(terms), problems);
    }

    private static List<String> files(LessonPack pack, List<LessonProblem> problems) {
        try {
            return pack.files();
        } catch (IOException e) {
            problems.add(new LessonProblem(pack.name(), 1, "The folder of lessons cannot be read: " + e.getMessage() + "."));
            return List.of();
        }
    }

    /** The lessons in their order. */
    public List<Lesson> all() {
        return all;
    }

    /** A lesson by its id. */
    public Optional<Lesson> find(String id) {
        return all.stream().filter(lesson -> lesson.id().equals(id)).findFirst();
    }

    /** The terms of all packs. */
    public Glossary glossary() {
        return glossary;
    }

    /** Mistakes in files, in the order in which they were met. */
    public List<LessonProblem> problems() {
        return problems;
    }

    /**
     * Makes the disk of a lesson as {@code NAME.img}, and {@code NAME.csv} where it has a read map; older files of these names are
     * replaced. The same lesson gives the same bytes on every machine. Takes a moment: not for a thread that draws.
     *
     * @param folder is made where it is missing
     * @throws IOException if a file cannot be written
     * @throws LessonException if the disk's description does not fit itself
     */
    public LessonDisk disk(Lesson lesson, Path folder) throws IOException {
        DiskPlan plan = disks.get(lesson.disk());
        if (plan == null) {
            throw new LessonException("there is no disk \"" + lesson.disk() + "\"");
        }
        Files.createDirectories(folder);
        Path image = folder.resolve(plan.name() + ".img");
        Path map = folder.resolve(plan.name() + ".csv");
        new DiskMaking(plan).write(image, map);
        return new LessonDisk(plan.name(), image, Files.exists(map) ? map : null);
    }
}
