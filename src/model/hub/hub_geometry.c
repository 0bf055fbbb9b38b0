/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/hub/hub_lives.h"

#include <math.h>

struct spt_hub_load spt_hub_wheel_load(const struct spt_hub_wheel *wheel)
{
    return (struct spt_hub_load){
        .force_x_n = wheel->rearward_n + wheel->pad_rearward_n,
        .force_y_n = wheel->radial_n + wheel->pad_up_n,
        .force_z_n = wheel->side_n,
        .moment_x_nmm = -wheel->offset_mm * wheel->radial_n -
                        wheel->rolling_radius_mm * wheel->side_n -
                        wheel->pad_offset_mm * wheel->pad_up_n,
        .moment_y_nmm =
            wheel->offset_mm * wheel->rearward_n + wheel->pad_offset_mm * wheel->pad_rearward_n,
    };
}

double spt_hub_row_sign(const struct spt_hub *hub, int row)
{
    if (hub->row_count == 1)
        return 1.0;
    double inboard = hub->mounting == SPT_HUB_BACK_TO_BACK ? 1.0 : -1.0;
    return row == 0 ? inboard : -inboard;
}

double spt_hub_load_centre(const struct spt_hub *hub, int row)
{
    const struct spt_hub_row *r = &hub->rows[row];
    return r->position_mm - spt_hub_row_sign(hub, row) * 0.5 * r->geometry.pitch_diameter_mm *
                                tan(r->geometry.contact_angle_rad);
}

static bool row_is_valid(const struct spt_hub_row *row)
{
    const struct spt_geometry *g = &row->geometry;
    bool numbers = isfinite(g->pitch_diameter_mm) && isfinite(row->position_mm) &&
                   isfinite(g->element_length_mm) && isfinite(row->phase_rad);
    bool shape = g->elements >= 3 && g->elements <= 1000 && g->element_diameter_mm > 0 &&
                 g->element_length_mm > 0 && g->contact_angle_rad >= 0.01 &&
                 g->contact_angle_rad <= 1.2;
    return numbers && shape && g->element_diameter_mm < 0.4 * g->pitch_diameter_mm &&
           fabs(row->position_mm) <= 1e5 && g->pitch_diameter_mm <= 1e5 &&
           fabs(row->misalignment_x_rad) <= 0.1 && fabs(row->misalignment_y_rad) <= 0.1;
}

static bool is_valid(const struct spt_hub *hub)
{
    bool counts = (hub->row_count == 1 || hub->row_count == 2) &&
                  hub->laminae >= SPT_HUB_LAMINAE_MIN && hub->laminae <= SPT_HUB_LAMINAE_MAX;
    bool words = (hub->mounting == SPT_HUB_BACK_TO_BACK || hub->mounting == SPT_HUB_FACE_TO_FACE) &&
                 (hub->turning == SPT_HUB_OUTER_TURNS || hub->turning == SPT_HUB_INNER_TURNS);
    if (!counts || !words || !(hub->profile_factor >= 0 && hub->profile_factor <= 10))
        return false;
    for (int i = 0; i < hub->row_count; i++)
        if (!row_is_valid(&hub->rows[i]))
            return false;
    return hub->row_count == 1 || hub->rows[0].position_mm < hub->rows[1].position_mm;
}

enum spt_status spt_hub_thermal_setting(const struct spt_hub *hub, double expansion_per_k,
                                        double difference_k, double *change_mm)
{
    *change_mm = (double)NAN;
    bool numbers = expansion_per_k >= 0 && expansion_per_k <= 1e-3 && fabs(difference_k) <= 1000;
    if (!is_valid(hub) || hub->row_count != 2 || !numbers)
        return SPT_BAD_ARGUMENT;
    double distance = hub->rows[1].position_mm - hub->rows[0].position_mm;
    double length = hub->mounting == SPT_HUB_BACK_TO_BACK ? distance : -distance;
    for (int i = 0; i < 2; i++) {
        const struct spt_geometry *g = &hub->rows[i].geometry;
        double a = g->contact_angle_rad;
        double outer = 0.5 * (g->pitch_diameter_mm + g->element_diameter_mm * cos(a));
        length -= outer / tan(a);
    }
    *change_mm = expansion_per_k * difference_k * length;
    return SPT_OK;
}

/* 2 P(x) in mm. ISO 16281: plain log profile up to L_we = 2.5 D_we, straight middle above. */
static double work_out_profile(const struct spt_geometry *g, double x)
{
    double d = g->element_diameter_mm, l = g->element_length_mm;
    if (l <= 2.5 * d) {
        double u = 2.0 * x / l;
        return 2.0 * 0.00035 * d * -log1p(-u * u);
    }
    double straight = l - 2.5 * d;
    double u = (2.0 * fabs(x) - straight) / (2.5 * d);
    return u <= 0 ? 0.0 : 2.0 * 0.0005 * d * -log1p(-u * u);
}

static int pad(int laminae)
{
    return (laminae + SPT_HUB_LAMINAE_BLOCK - 1) / SPT_HUB_LAMINAE_BLOCK * SPT_HUB_LAMINAE_BLOCK;
}

/* x, profile, two sums and two scales of each lamina; angles and load of each roller; places. */
static size_t measure_row(const struct spt_hub *hub, int row)
{
    int z = hub->rows[row].geometry.elements;
    return 6 * (size_t)pad(hub->laminae) + 3 * (size_t)z + spt_hub_places_length(z);
}

size_t spt_hub_workspace_length(const struct spt_hub *hub)
{
    if (!is_valid(hub))
        return 0;
    size_t length = 0;
    for (int i = 0; i < hub->row_count; i++)
        length += measure_row(hub, i);
    return length;
}

static void place_rollers(const struct spt_hub_row *row, double *cosine, double *sine)
{
    for (int j = 0; j < row->geometry.elements; j++) {
        double phi = row->phase_rad + 2.0 * SPT_HUB_PI * j / row->geometry.elements;
        cosine[j] = cos(phi);
        sine[j] = sin(phi);
    }
}

void spt_hub_turn_cage(struct spt_hub_model *model, double share)
{
    for (int i = 0; i < model->hub.row_count; i++) {
        struct spt_hub_row *row = &model->hub.rows[i];
        row->phase_rad += share * 2.0 * SPT_HUB_PI / row->geometry.elements;
        place_rollers(row, model->tables[i].cosine, model->tables[i].sine);
    }
    spt_hub_place_rollers(model, 0, 0);
}

static void fill_table(const struct spt_hub *hub, int row, double *space, struct spt_hub_table *t)
{
    const struct spt_geometry *g = &hub->rows[row].geometry;
    int n = hub->laminae, z = g->elements, padded = pad(n);
    double *x = space, *profile = x + padded, *sum = profile + padded, *cosine = sum + 4 * padded;
    for (int k = 0; k < padded; k++) {
        x[k] = k < n ? (k + 0.5 * (1 - n)) * g->element_length_mm / n : 0.0;
        profile[k] = k < n ? hub->profile_factor * work_out_profile(g, x[k]) : 1e30;
    }
    place_rollers(&hub->rows[row], cosine, cosine + z);
    double a = g->contact_angle_rad, s = spt_hub_row_sign(hub, row);
    *t = (struct spt_hub_table){
        .x_mm = x,
        .profile_mm = profile,
        .lamina_sum = sum,
        .lamina_scale = sum + 2 * padded,
        .cosine = cosine,
        .sine = cosine + z,
        .roller_load_n = cosine + 2 * z,
        .places = cosine + 3 * z,
        .laminae = n,
        .padded = padded,
        .sign = s,
        .cos_angle = cos(a),
        .sin_angle = sin(a),
        .radius_mm = 0.5 * g->pitch_diameter_mm,
        .arm_mm = hub->rows[row].position_mm * cos(a) - s * 0.5 * g->pitch_diameter_mm * sin(a),
        .lamina_stiffness = SPT_HUB_STIFFNESS * pow(g->element_length_mm, 8.0 / 9.0) / n,
    };
    spt_hub_rate_row(hub, row, t);
}

enum spt_status spt_hub_prepare(const struct spt_hub *hub, double *workspace, size_t length,
                                struct spt_hub_model *model)
{
    *model = (struct spt_hub_model){.length_mm = (double)NAN};
    size_t needed = spt_hub_workspace_length(hub);
    if (needed == 0 || workspace == NULL)
        return SPT_BAD_ARGUMENT;
    if (length < needed)
        return SPT_TOO_SMALL;
    model->hub = *hub;
    model->length_mm = 0;
    for (int i = 0; i < hub->row_count; i++) {
        fill_table(hub, i, workspace, &model->tables[i]);
        workspace += measure_row(hub, i);
        model->length_mm += model->tables[i].radius_mm / hub->row_count;
    }
    model->kernel = spt_hub_kernel_widest();
    spt_hub_place_rollers(model, 0, 0);
    return SPT_OK;
}
