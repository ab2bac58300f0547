package sectorglass.decode;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sectorglass.decode.Specs.at;
import static sectorglass.decode.Specs.decode;
import static sectorglass.decode.Specs.decodeWithHole;

import java.util.Locale;

import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

import sectorglass.decode.FieldNode.State;

/** Decode first, judge second: violations, unread and missing bytes mark their field and what depends on it, nothing more. */
class DamageTest {
    private Locale before;

    @BeforeEach
    void english() {
        before = Locale.getDefault();
        Locale.setDefault(Locale.ENGLISH);
    }

    @AfterEach
    void back() {
        Locale.setDefault(before);
    }

    @Test
    void goesOnAfterAViolationAndTellsWhatWasExpected() {
        FieldNode root = decode("""
                meta: {id: t, endian: le}
                seq:
                  - {id: magic, contents: AB}
                  - {id: count, type: u2, valid: {min: 1, max: 4}}
                  - {id: kind, type: u1, valid: {any-of: [1, 2]}}
                  - {id: last, type: u1, valid: 9}
                """, "4143 0900 05 09");
        assertEquals(State.VIOLATED, at(root, "magic").state());
        assertEquals("41 42", at(root, "magic").expected());
        assertEquals("should be 41 42", at(root, "magic").problem());
        assertEquals(9L, at(root, "count").raw());
        assertEquals("should be at most 4", at(root, "count").problem());
        assertEquals("should be one of: 1, 2", at(root, "kind").problem());
        assertEquals(State.OK, at(root, "last").state());
    }

    @Test
    void marksUnreadFieldsAndReadsTheOnesBehindThem() {
        byte[] bytes = new byte[1536];
        bytes[1024] = 7;
        FieldNode root = decodeWithHole("""
                meta: {id: t, endian: le}
                seq:
                  - {id: head, size: 510}
                  - {id: split, type: u4}
                  - {id: hole, type: u4}
                  - {id: rest, size: 506}
                  - {id: behind, type: u1}
                  - {id: copy, size: hole}
                  - {id: later, type: u1}
                instances:
                  twice: {value: hole * 2}
                """, bytes);
        assertEquals(State.OK, at(root, "head").state());
        assertEquals(State.UNREAD, at(root, "split").state());
        assertNull(at(root, "split").raw());
        assertEquals("not read", at(root, "hole").problem());
        assertEquals(4, at(root, "hole").length());
        assertEquals(7L, at(root, "behind").raw());
        assertEquals("depends on hole (not read)", at(root, "copy").problem());
        assertEquals("depends on hole (not read)", at(root, "later").problem());
        assertEquals("depends on hole (not read)", at(root, "twice").problem());
        assertEquals(State.UNREAD, at(root, "twice").state());
    }

    @Test
    void readsTextThatEndsBeforeTheHole() {
        byte[] bytes = new byte[1024];
        bytes[500] = 'a';
        FieldNode root = decodeWithHole("""
                meta: {id: t, encoding: ASCII}
                seq:
                  - {id: head, size: 500}
                  - {id: name, type: strz, size: 20}
                  - {id: open, type: strz, size: 20}
                """, bytes);
        assertEquals("a", at(root, "name").raw());
        assertEquals(State.OK, at(root, "name").state());
        assertEquals(State.UNREAD, at(root, "open").state());
    }

    @Test
    void decodesACutBodyToItsLastByte() {
        FieldNode root = decode("""
                meta: {id: t, endian: le}
                seq:
                  - {id: body, type: body, size: 100}
                types:
                  body:
                    seq:
                      - {id: a, type: u2}
                      - {id: b, type: u4}
                      - {id: c, type: u1}
                """, "0100 0203");
        assertEquals(State.CLIPPED, at(root, "body").state());
        assertEquals("100 bytes are needed, but only 4 are there", at(root, "body").problem());
        assertEquals(1L, at(root, "body.a").raw());
        assertEquals(State.CLIPPED, at(root, "body.b").state());
        assertEquals(2, at(root, "body.b").length());
        assertEquals(State.CLIPPED, at(root, "body.c").state());
    }

    @Test
    void clipsACountThatDoesNotFit() {
        FieldNode root = decode("""
                meta: {id: t, endian: le}
                seq:
                  - {id: n, type: u4}
                  - {id: items, type: u2, repeat: expr, repeat-expr: n}
                """, "ffffffff 0100 0200");
        FieldNode items = at(root, "items");
        assertEquals(State.CLIPPED, items.state());
        assertTrue(items.children().size() <= 3);
        assertEquals(2L, items.children().get(1).raw());
    }

    @Test
    void keepsNumbersThatNoMemberHas() {
        FieldNode root = decode("""
                meta: {id: t}
                seq:
                  - {id: kind, type: u1, enum: kind}
                  - {id: other, type: u1, enum: kind}
                enums:
                  kind: {1: {id: one, -label: the first, doc: It comes first.}}
                """, "01 63");
        assertEquals("the first", at(root, "kind").meaning());
        assertEquals("It comes first.", at(root, "kind").meaningDoc());
        assertEquals(99L, at(root, "other").raw());
        assertEquals("not assigned in this format", at(root, "other").meaning());
    }

    @Test
    void refusesPositionsOutsideTheWindow() {
        FieldNode root = decode("""
                meta: {id: t, endian: le}
                seq:
                  - {id: at, type: s4}
                instances:
                  far: {pos: at, type: u1}
                  before: {pos: at - 1000, type: u1}
                  good: {pos: 3, type: u1}
                """, "64000000");
        assertEquals("position 100 lies outside the 4 bytes that are there", at(root, "far").problem());
        assertEquals(State.CLIPPED, at(root, "before").state());
        assertEquals(0L, at(root, "good").raw());
    }

    @Test
    void namesAnInstanceThatNeedsItself() {
        FieldNode root = decode("""
                meta: {id: t}
                instances:
                  a: {value: b + 1}
                  b: {value: a + 1}
                """, "");
        assertNotNull(at(root, "a").problem());
        assertEquals(State.VIOLATED, at(root, "a").state());
    }
}
