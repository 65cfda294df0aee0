(() => { "use strict"; })();
