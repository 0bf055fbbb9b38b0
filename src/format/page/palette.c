/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/page/palette.h"

#include <stddef.h>

static const struct spt_color_pair colors[] = {
    {"paper", "#fcfaf5", "#15191c", SPT_COLOR_GROUND},
    {"card", "#f4f0e7", "#1e2428", SPT_COLOR_GROUND},
    {"rust-wash", "#f5e1d6", "#43271c", SPT_COLOR_GROUND},
    {"ochre-wash", "#f5ebcf", "#3a3017", SPT_COLOR_GROUND},
    {"moss-wash", "#e6eed8", "#27351d", SPT_COLOR_GROUND},
    {"steel-wash", "#dfeaf2", "#1c3241", SPT_COLOR_GROUND},
    {"ink", "#20272b", "#ebe7dd", SPT_COLOR_TEXT},
    {"muted", "#525b62", "#b3babd", SPT_COLOR_TEXT},
    {"rust", "#963a18", "#f59f78", SPT_COLOR_TEXT},
    {"steel", "#23567a", "#8cc3e8", SPT_COLOR_TEXT},
    {"moss", "#42611c", "#abcf7b", SPT_COLOR_TEXT},
    {"ochre", "#765600", "#e5bb5c", SPT_COLOR_TEXT},
    {"rule", "#d9d3c6", "#39424a", SPT_COLOR_LINE},
    {"edge", "#8a877d", "#76818a", SPT_COLOR_LINE},
};

const struct spt_color_pair *spt_palette(int i)
{
    return i >= 0 && i < (int)(sizeof colors / sizeof *colors) ? &colors[i] : NULL;
}

void spt_palette_properties(FILE *out)
{
    const struct spt_color_pair *color;
    fputs(":root{color-scheme:light dark", out);
    for (int i = 0; (color = spt_palette(i)); i++)
        fprintf(out, ";--%s:%s", color->name, color->light);
    fputs("}\n@media (prefers-color-scheme:dark){:root{", out);
    for (int i = 0; (color = spt_palette(i)); i++)
        fprintf(out, "%s--%s:%s", i ? ";" : "", color->name, color->dark);
    fputs("}}\n@media print{:root{color-scheme:light", out);
    for (int i = 0; (color = spt_palette(i)); i++)
        fprintf(out, ";--%s:%s", color->name, i == 0 ? "#ffffff" : color->light);
    fputs("}}\n", out);
}

void spt_palette_chart_style(FILE *out)
{
    const struct spt_color_pair *color;
    for (int i = 0; (color = spt_palette(i)); i++)
        fprintf(out, ".f-%s{fill:%s;fill:var(--%s)}.s-%s{stroke:%s;stroke:var(--%s)}\n",
                color->name, color->light, color->name, color->name, color->light, color->name);
    fputs(".chart{font-family:system-ui,\"Noto Sans\",\"DejaVu Sans\",sans-serif;font-size:13px}\n"
          ".chart text{fill:#20272b;fill:var(--ink)}\n"
          ".chart .quiet{font-size:13px;fill:#525b62;fill:var(--muted)}\n"
          ".chart .small{font-size:13px}\n"
          ".chart .bold{font-weight:600}\n"
          ".chart .halo{paint-order:stroke;stroke:#fcfaf5;stroke:var(--paper);stroke-width:3.5px;"
          "stroke-linejoin:round}\n"
          ".chart .onsolid{font-size:13px;font-weight:600;fill:#fcfaf5;fill:var(--paper)}\n"
          ".chart .line{fill:none;stroke-linecap:round;stroke-linejoin:round}\n"
          ".w1{stroke-width:.8}.w2{stroke-width:1.6}.w3{stroke-width:2.4}.w4{stroke-width:4.5}\n"
          ".d1{stroke-dasharray:7 3}.d2{stroke-dasharray:2 3}.d3{stroke-dasharray:9 3 2 3}"
          ".d4{stroke-dasharray:4 3}\n",
          out);
    for (int i = 0; (color = spt_palette(i)); i++)
        if (color->use == SPT_COLOR_TEXT)
            fprintf(out, ".chart .t-%s{fill:%s;fill:var(--%s)}\n", color->name, color->light,
                    color->name);
}
