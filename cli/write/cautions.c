#include "vh_cautions.h"

/* Common practice of the trade, no source; each defers to local rules by the line at the end. */
static const struct vh_caution caution[] = {
    {"Blades cut.",
     "Break by hand where you can. Alcohol is flammable and does not stop the tomato"
     " viruses.",
     "Blades cut: break by hand where you can"},
    {"Clean hands and gloves", "between plantings; youngest and healthiest plants first.",
     "Clean hands and gloves between plantings, youngest and healthiest first"},
    {"Hooks hang above your shoulders.",
     "Use the low trolley or a sound ladder on dry, level floor;"
     " lock it, never lean out. Two turns, then rest your arms.",
     "Hooks hang high: a locked trolley or a sound ladder"},
    {"Baskets are heavy.", "Make two trips, or take the cart. Bend your knees.",
     "Baskets are heavy: two trips"},
    {"The crop pulls on the frame.",
     "A wire that sags or a post that leans: get out from under it"
     " and have the frame looked at.",
     "A sagging wire: get out from under it"},
    {"Wet floor is slippery; water and current do not mix.",
     "Dry hands for plugs, pumps and lamps; have"
     " an electrician fit a breaker that trips when current leaks.",
     "Wet floors slip; no plugs with wet hands"},
    {"A heater or burner without a flue makes carbon monoxide, which has no smell.",
     "Off, and doors open, before you go in. Fit an alarm.",
     "Burners make carbon monoxide: off, doors open, an alarm"},
    {"The house gets hot.",
     "Work at dawn, drink, rest in the shade. Dizzy, sick or confused: stop,"
     " get cool, call for help.",
     "Heat: dawn, drink, shade; dizzy: stop"},
    {"Fruit that touched the floor is not for sale.",
     "Clean hands and baskets. Do not pick while ill"
     " or with an open cut.",
     "Fruit from the floor is not for sale; do not pick while ill"},
    {"Sprays only as their label says.", "Keep out until its time is over.",
     "Sprays only by their label"},
};

const struct vh_caution *vh_cautions(size_t *count)
{
    *count = sizeof caution / sizeof caution[0];
    return caution;
}

const char *vh_cautions_end(void)
{
    return "Local rules, the label and licensed advice come before this page.";
}
