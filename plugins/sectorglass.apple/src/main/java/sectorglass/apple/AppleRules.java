package sectorglass.apple;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.verify.PropertiesRuleSet;
import sectorglass.verify.RuleSet;

/** The rules of this bundle's structures. */
@Component(service = RuleSet.class)
@ServiceProvider(value = RuleSet.class, resolution = Resolution.OPTIONAL)
public final class AppleRules extends PropertiesRuleSet {

    /** Made by the service loader. */
    public AppleRules() {
        // the properties beside this class hold everything
    }
}
