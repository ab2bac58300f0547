package sectorglass.practice.lesson.read;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

import sectorglass.practice.lesson.Lesson;
import sectorglass.practice.lesson.LessonPack;
import sectorglass.practice.lesson.LessonProblem;
import sectorglass.practice.lesson.Step;
import sectorglass.practice.lesson.Task;
import sectorglass.practice.lesson.Words;
import sectorglass.practice.lesson.WrongAnswer;
import sectorglass.practice.lesson.place.Expressions;

/** Reads a {@code .lesson} file. */
public final class LessonReader {
    private static final Set<String> UNITS = Set.of("lba", "bytes", "sectors", "clusters", "number", "hex");
    private static final String CHECK = "[a-z0-9]+([.-][a-z0-9]+)*";

    private final String file;
    private final List<LessonProblem> problems;

    /** @param problems mistakes are added to it */
    public LessonReader(String file, List<LessonProblem> problems) {
        this.file = file;
        this.problems = problems;
    }

    /** The lesson, or null where it has a mistake. */
    public Lesson read(LessonPack pack) {
        int before = problems.size();
        List<Block> blocks = new KeyFile(file, problems).read(pack, Set.of("step"));
        if (blocks.isEmpty()) {
            return null;
        }
        Block head = blocks.get(0);
        String id = head.id("lesson");
        long order = head.number("order", 1000);
        Words title = head.words("title", true);
        String disk = head.id("disk");
        List<String> sources = head.lines("source").stream().map(KeyLine::value).toList();
        if (sources.isEmpty()) {
            head.problem(head.first(), "No \"source:\" tells where the facts of this lesson are published. Name it, or write \"common practice, no source\".");
        }
        head.end();
        List<Step> steps = new ArrayList<>();
        Set<String> ids = new HashSet<>();
        for (Block block : blocks.subList(1, blocks.size())) {
            Step step = step(block);
            if (step != null && !ids.add(step.id())) {
                block.problem(block.first(), "A step \"" + step.id() + "\" stands above already. Give this one another name.");
            }
            steps.add(step);
        }
        if (steps.isEmpty()) {
            head.problem(head.first(), "The lesson has no step. A step begins with \"step:\" and its name.");
        }
        return problems.size() > before ? null : new Lesson(id, (int) order, title, disk, sources, steps, file);
    }

    private Step step(Block block) {
        int before = problems.size();
        String id = block.id("step");
        Words text = block.words("text", true);
        String point = block.checked("point", true, Expressions::place);
        String format = block.value("show", false);
        List<String> sources = block.lines("source").stream().map(KeyLine::value).toList();
        KeyLine word = block.line("task", true);
        Task task = word == null ? null : task(word, block);
        boolean asks = task != null && !(task instanceof Task.ReadOn);
        Words ask = asks ? block.words("ask", true) : null;
        Words right = asks ? block.words("right", false) : null;
        Words otherwise = asks ? block.words("otherwise", true) : null;
        List<WrongAnswer> wrong = new ArrayList<>();
        for (Map.Entry<KeyLine, Words> pair : block.pairs("wrong", "why")) {
            wrongPattern(pair.getKey(), task, block);
            wrong.add(new WrongAnswer(pair.getKey().value(), pair.getValue()));
        }
        block.end();
        return problems.size() > before ? null : new Step(id, text, point, format, task, ask, right, otherwise, wrong, sources, block.first());
    }

    private static void wrongPattern(KeyLine line, Task task, Block block) {
        String value = line.value();
        if (task instanceof Task.TypeNumber) {
            block.check(line, value, Expressions::number);
        } else if (task instanceof Task.TypeText) {
            block.check(line, value, Expressions::text);
        } else if (task instanceof Task.ClickByte || task instanceof Task.SelectBytes || task instanceof Task.CorrectField) {
            block.check(line, value, Expressions::place);
        } else if (task instanceof Task.ChooseFinding) {
            check(line, block);
        } else {
            block.problem(line.line(), "A step that is only read has no wrong answer.");
        }
    }

    private static void check(KeyLine line, Block block) {
        if (!line.value().matches(CHECK)) {
            block.problem(line.line(), "\"" + line.value() + "\" is no id of a check. docs/checks.md lists them.");
        }
    }

    private static Task task(KeyLine word, Block block) {
        switch (word.value()) {
            case "read" -> {
                return new Task.ReadOn();
            }
            case "click" -> {
                return new Task.ClickByte(block.checked("answer", true, Expressions::place));
            }
            case "select" -> {
                return new Task.SelectBytes(block.checked("answer", true, Expressions::place));
            }
            case "number" -> {
                KeyLine unit = block.line("unit", false);
                if (unit != null && !UNITS.contains(unit.value())) {
                    block.problem(unit.line(), "\"" + unit.value() + "\" is no unit. Units: " + String.join(", ", UNITS.stream().sorted().toList()) + ".");
                }
                return new Task.TypeNumber(block.checked("answer", true, Expressions::number), unit == null ? "number" : unit.value());
            }
            case "text" -> {
                return new Task.TypeText(block.checked("answer", true, Expressions::text));
            }
            case "finding" -> {
                KeyLine answer = block.line("answer", true);
                if (answer != null) {
                    check(answer, block);
                }
                return new Task.ChooseFinding(answer == null ? "" : answer.value(), block.checked("at", false, Expressions::place));
            }
            case "correct" -> {
                List<KeyLine> checks = block.lines("check");
                checks.forEach(line -> check(line, block));
                if (checks.isEmpty()) {
                    block.problem(word.line(), "No \"check:\" says which checks must hold after the correction.");
                }
                return new Task.CorrectField(wanted(word, block), checks.stream().map(KeyLine::value).toList());
            }
            default -> {
                block.problem(word.line(), "\"" + word.value() + "\" is no task. Tasks: read, click, select, number, text, finding, correct.");
                return null;
            }
        }
    }

    private static List<Task.CorrectField.Wanted> wanted(KeyLine word, Block block) {
        List<KeyLine> at = block.lines("at");
        List<KeyLine> answers = block.lines("answer");
        at.forEach(line -> block.check(line, line.value(), Expressions::place));
        answers.forEach(line -> block.check(line, line.value(), Expressions::value));
        if (at.isEmpty() || at.size() != answers.size()) {
            block.problem(word.line(), "Each \"at:\" names a field and needs its own \"answer:\", the value that the field must get.");
            return List.of(new Task.CorrectField.Wanted("", ""));
        }
        List<Task.CorrectField.Wanted> wanted = new ArrayList<>();
        for (int i = 0; i < at.size(); i++) {
            wanted.add(new Task.CorrectField.Wanted(at.get(i).value(), answers.get(i).value()));
        }
        return wanted;
    }
}
