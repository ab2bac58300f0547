package sectorglass.decode;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sectorglass.decode.Specs.problems;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Mistakes in a spec are told with file, line, column and what is allowed; all of them, not only the first. */
class SpecProblemTest {

    private static void only(String spec, String problem) {
        assertEquals(List.of(problem), problems(spec));
    }

    @Test
    void unknownTypeWithTheNearestName() {
        only("""
                meta: {id: t}
                seq:
                  - id: a
                    type: heder
                types:
                  header: {seq: [{id: x, type: u1}]}
                """, "t.ksy:4:11: the type 'heder' is not defined in this spec nor in its imports; is 'header' meant?");
    }

    @Test
    void unknownFieldInsideAnExpression() {
        only("""
                meta: {id: t}
                seq:
                  - id: length
                    type: u1
                  - id: body
                    size: 2 + lenght
                """, "t.ksy:6:15: the type t has no field 'lenght'; is 'length' meant?");
    }

    @Test
    void unknownKey() {
        only("""
                meta: {id: t}
                seq:
                  - id: a
                    typ: u1
                    size: 1
                """, "t.ksy:4:5: the key 'typ' does not belong to a field; is 'type' meant?");
    }

    @Test
    void syntaxInsideAQuotedExpression() {
        only("""
                meta: {id: t}
                instances:
                  a:
                    value: "(1 + "
                """, "t.ksy:4:18: a value is expected instead of 'the end'");
    }

    @Test
    void severalMistakesAtOnce() {
        List<String> found = problems("""
                meta: {id: t}
                seq:
                  - {id: A, type: u1}
                  - {id: b, type: u2}
                  - {id: b, type: nosuch}
                """);
        assertEquals(4, found.size(), found::toString);
        assertTrue(found.get(0).startsWith("t.ksy:3:10: 'A' is no id"));
        assertTrue(found.stream().anyMatch(p -> p.contains("the byte order of u2 is not known")));
        assertTrue(found.stream().anyMatch(p -> p.contains("'b' is defined twice")));
    }

    /** One wrong field each; the beginning of the sentence. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            {id: a, type: u1, if: 1}                            | true or false is needed here
            {id: a, size: '"x"'}                                | a whole number is needed here
            {id: a, type: u1, enum: nosuch}                     | the enumeration 'nosuch' is not defined
            {id: a, type: u1, valid: '"x"'}                     | the field is a whole number
            {id: a, type: u1, repeat: expr}                     | 'repeat: expr' needs 'repeat-expr'
            {id: a, type: u1, repeat: sometimes}                | 'repeat' must be expr, until or eos
            {id: a, type: str, size: 3}                         | the encoding of the text is not known
            {id: a, type: str, encoding: ASCII}                 | text needs a known end
            {id: a, size: 4, process: my_code(1)}               | the process 'my_code' is custom code
            {id: a, type: u1, size: 4}                          | 'size' does not fit a number
            {id: a}                                             | the field 'a' has no type and no known end
            {id: a, type: u1, -unit: furlong}                   | the unit 'furlong' is not known
            {id: a, type: u1, -unit: flags}                     | '-unit: flags' needs '-flags'
            {id: a, type: u1, -link: planet}                    | '-link' must be one of
            {id: a, type: u1, valid: {expr: '_ + 1'}}           | true or false is needed here
            {id: a, type: u1, if: 'a.foo == 1'}                 | a whole number has no member 'foo'
            {id: a, type: u1, if: '"x" + 1 == 2'}               | '+' cannot join text and a whole number
            {id: a, type: u1, if: '[1] < 2'}                    | bytes cannot be compared with a whole number
            {id: a, type: u1, if: 'sizeof<nosuch> == 1'}        | the type 'nosuch' is not defined
            {id: a, type: u1, if: 'a == e::x'}                  | the enumeration 'e' is not defined
            {id: a, type: u1, valid: 0x10000000000000000}       | the number 0x10000000000000000 does not fit
            """)
    void oneMistakeEach(String field, String sentence) {
        List<String> found = problems("meta: {id: t}\nseq:\n  - " + field.strip() + "\n");
        assertEquals(1, found.size(), found::toString);
        assertTrue(found.get(0).matches("t\\.ksy:3:\\d+: .*") && found.get(0).contains(": " + sentence.strip()), found.get(0));
    }

    @Test
    void brokenYaml() {
        List<String> found = problems("meta:\n  id: t\nseq:\n  - id: [\n");
        assertEquals(1, found.size());
        assertTrue(found.get(0).contains("this is not YAML"), found.get(0));
    }

    @Test
    void filesAndImports(@TempDir Path folder) throws IOException {
        Files.createDirectories(folder.resolve("sub"));
        Files.writeString(folder.resolve("main.ksy"), """
                meta: {id: main, imports: [sub/inner, ../outside, missing]}
                seq: [{id: a, type: inner}]
                """);
        Files.writeString(folder.resolve("sub/inner.ksy"), "{meta: {id: inner, imports: [/main]}, seq: [{id: b, type: nosuch}]}");
        List<String> found = SpecCheck.check(folder.resolve("main.ksy")).stream().map(SpecProblem::toString).toList();
        assertEquals(3, found.size(), found::toString);
        assertTrue(found.get(0).contains("'../outside' leaves the folder"));
        assertTrue(found.get(1).contains("'missing' is not there"));
        assertTrue(found.get(2).startsWith("sub/inner.ksy:1:"));
        assertEquals(1, SpecCheck.check(folder.resolve("nothing.ksy")).size());
    }
}
