package sectorglass.partition;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.decode.BundleFormats;
import sectorglass.decode.FormatFolder;

/** The specs of all partition maps. */
@Component(service = FormatFolder.class)
@ServiceProvider(value = FormatFolder.class, resolution = Resolution.OPTIONAL)
public final class PartitionFormats extends BundleFormats {

    /** The specs of this bundle. */
    public PartitionFormats() {
        super("sectorglass.partition");
    }
}
