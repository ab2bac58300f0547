package sectorglass.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.disk.Nominal;

/** Nominal capacities: IDEMA LBA1-02/LBA1-03 up to 8000 GB, SFF-8447 above. */
class SoldCapacitiesTest {
    private final SoldCapacities rule = new SoldCapacities();

    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {"40|78161328|9770166", "60|117231408|14653926", "80|156301488|19537686", "120|234441648|29305206",
        "160|312581808|39072726", "250|488397168|61049646", "320|625142448|78142806", "500|976773168|122096646", "640|1250263728|156282966",
        "750|1465149168|183143646", "1000|1953525168|244190646", "1500|2930277168|366284646", "2000|3907029168|488378646",
        "3000|5860533168|732566646", "4000|7814037168|976754646", "5000|9767541168|1220942646", "6000|11721045168|1465130646",
        "8000|15628053168|1953506646", "10000|19532873728|2441609216", "12000|23437770752|2929721344", "14000|27344764928|3418095616",
        "16000|31251759104|3906469888", "18000|35156656128|4394582016", "20000|39063650304|4882956288"})
    void rows(long gigabytes, long of512, long of4096) {
        exact(gigabytes, of512, 512);
        exact(gigabytes, of4096, 4096);
    }

    private void exact(long gigabytes, long sectors, int size) {
        assertEquals(sectors, SoldCapacities.sectors(gigabytes, size));
        Nominal full = rule.nearest(sectors, size).orElseThrow();
        assertEquals(gigabytes, full.gigabytes());
        assertEquals(sectors, full.sectors());
        assertTrue(full.complete());
        for (long less : new long[] {1, 2048}) {
            Nominal cut = rule.nearest(sectors - less, size).orElseThrow();
            assertEquals(gigabytes, cut.gigabytes());
            assertEquals(sectors, cut.sectors());
            assertFalse(cut.complete());
        }
    }

    @Test
    void otherSizesHaveNone() {
        for (long sectors : new long[] {0, 1, 2880, 131072, 420_000_000, Long.MAX_VALUE}) {
            assertTrue(rule.nearest(sectors, 512).isEmpty(), "sectors=" + sectors);
        }
        assertTrue(rule.nearest(976773168, 2048).isEmpty());
    }

    @Test
    void aLittleMoreIsComplete() {
        Nominal nominal = rule.nearest(78165360, 512).orElseThrow();
        assertEquals(40, nominal.gigabytes());
        assertTrue(nominal.complete());
    }
}
