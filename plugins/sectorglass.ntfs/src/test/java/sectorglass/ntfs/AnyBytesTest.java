package sectorglass.ntfs;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

/** Readers over any bytes: they end, stay in bounds, and give what can be written back. */
class AnyBytesTest {

    @Property(tries = 500)
    void runsOfAnyBytesStayInTheAttribute(@ForAll @Size(max = 64) byte[] bytes) {
        FixedBlock block = new FixedBlock();
        byte[] own = Arrays.copyOf(bytes, 72);
        block.begin(own, 0, own.length);
        RunList runs = new RunList();
        long covered = runs.add(block, 0, bytes.length, 0);
        long sum = 0;
        for (int i = 0; i < runs.runs(); i++) {
            assertTrue(runs.count(i) > 0 && runs.vcn(i) == sum && (runs.lcn(i) >= 0 || runs.lcn(i) == RunList.HOLE));
            sum += runs.count(i);
        }
        assertTrue(sum == covered && runs.runs() <= bytes.length / 2);
    }

    @Property(tries = 300)
    void anyBytesDecompressOrAreRefused(@ForAll @Size(max = 300) byte[] bytes) {
        byte[] out = new byte[65536];
        int good = Lznt1.unit(bytes, bytes.length, out);
        assertTrue(good >= 0 && good <= out.length && (good % 4096 == 0));
    }

    @Property(tries = 500)
    void anyRecordIsWalkedToAnEnd(@ForAll @Size(value = 96) byte[] head, @ForAll @IntRange(max = 4095) int spread) {
        byte[] record = new byte[1024];
        for (int at = 0; at < record.length; at += 1 + spread % 200 + 96) {
            System.arraycopy(head, 0, record, at, Math.min(96, record.length - at));
        }
        record[0] = 'F';
        record[1] = 'I';
        record[2] = 'L';
        record[3] = 'E';
        record[4] = 0x30;
        record[5] = 0;
        record[6] = 3;
        record[7] = 0;
        RecordView view = new RecordView();
        view.load(record, 0, record.length, null, 0);
        if (view.usable()) {
            view.rewind();
            int steps = 0;
            while (view.nextAttribute()) {
                NameValue.of(view);
                view.attributeName();
                steps++;
            }
            assertTrue(steps <= 1024 / 24);
        }
    }

    @Property(tries = 300)
    void anyIndexChainEnds(@ForAll @Size(max = 512) byte[] bytes) {
        FixedBlock block = new FixedBlock();
        block.begin(Arrays.copyOf(bytes, 600), 0, 600);
        int[] steps = {0};
        DirectoryIndex.walk(block, 0x10, (b, at, key, length) -> {
            NameValue.at(b, key, length);
            steps[0]++;
        });
        assertTrue(steps[0] <= 600 / 16);
    }
}
