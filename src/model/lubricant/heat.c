/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"

#include <gsl/gsl_math.h>
#include <math.h>

#include "model/bearing/bearing_type.h"
#include "model/numeric.h"
#include <stddef.h>

#define WATTS_PER_RPM_NMM 1.047e-4
#define REFERENCE_RISE_K 50.0
#define LARGE_SURFACE_MM2 50e3

static bool is_positive(double value)
{
    return value > 0.0 && isfinite(value);
}

static bool is_usable(const struct spt_bearing *bearing)
{
    if (bearing == NULL || !spt_bearing_is_type(bearing->type))
        return false;
    return is_positive(bearing->bore_mm) && isfinite(bearing->outside_diameter_mm) &&
           bearing->outside_diameter_mm > bearing->bore_mm &&
           (spt_bearing_is_thrust(bearing->type) || is_positive(bearing->width_mm)) &&
           (spt_bearing_type_data(bearing->type)->friction.f1_exponent <= 0.0 ||
            is_positive(bearing->static_load_rating_n));
}

static bool is_turning_known(const struct spt_heat_inputs *in)
{
    return is_usable(in->bearing) && spt_lubrication_is_known(in->lubrication) &&
           in->speed_rpm >= 0.0 && isfinite(in->speed_rpm) && in->equivalent_load_n >= 0.0 &&
           isfinite(in->equivalent_load_n);
}

static double get_f0(const struct spt_bearing_type_data *type, enum spt_lubrication lubrication)
{
    enum spt_lubrication like = spt_lubrication_like(lubrication);
    if (like == SPT_LUBRICATION_GREASE)
        return type->friction.f0_grease;
    return like == SPT_LUBRICATION_OIL_BATH ? type->friction.f0_bath
                                            : type->friction.f0_circulating;
}

static void set_unknown(struct spt_heat_balance *out)
{
    out->temperature_c = out->viscosity_mm2_s = out->oil_torque_nmm = (double)NAN;
    out->load_torque_nmm = out->heat_w = out->conductance_w_k = (double)NAN;
}

enum spt_status spt_heat_friction(const struct spt_heat_inputs *in, double nu_mm2_s,
                                  struct spt_heat_balance *out)
{
    set_unknown(out);
    if (!is_turning_known(in) || !is_positive(nu_mm2_s))
        return SPT_BAD_ARGUMENT;
    const struct spt_bearing *bearing = in->bearing;
    const struct spt_bearing_type_data *type = spt_bearing_type_data(bearing->type);
    double dm = 0.5 * (bearing->bore_mm + bearing->outside_diameter_mm);
    double churn = nu_mm2_s * in->speed_rpm;
    double by_churn = churn >= 2000.0 ? 1e-7 * cbrt(churn * churn) : 160e-7;
    double f1 = type->friction.f1;
    if (type->friction.f1_exponent > 0.0)
        f1 *=
            pow(in->equivalent_load_n / bearing->static_load_rating_n, type->friction.f1_exponent);
    out->viscosity_mm2_s = nu_mm2_s;
    out->oil_torque_nmm = get_f0(type, in->lubrication) * by_churn * dm * dm * dm;
    out->load_torque_nmm = f1 * in->equivalent_load_n * dm;
    out->heat_w = WATTS_PER_RPM_NMM * in->speed_rpm * (out->oil_torque_nmm + out->load_torque_nmm);
    return SPT_OK;
}

enum spt_status spt_heat_conductance(const struct spt_bearing *bearing, double cooling_factor,
                                     double *conductance_w_k)
{
    *conductance_w_k = (double)NAN;
    if (!is_usable(bearing) || !(cooling_factor >= 0.1 && cooling_factor <= 10.0))
        return SPT_BAD_ARGUMENT;
    bool thrust = spt_bearing_is_thrust(bearing->type);
    double sum = bearing->outside_diameter_mm + bearing->bore_mm;
    double difference = bearing->outside_diameter_mm - bearing->bore_mm;
    double surface = M_PI * sum * (thrust ? 0.5 * difference : bearing->width_mm);
    double flow = thrust ? 0.020 : 0.016;
    if (surface > LARGE_SURFACE_MM2)
        flow *= pow(surface / LARGE_SURFACE_MM2, thrust ? -0.16 : -0.34);
    *conductance_w_k = flow * surface / REFERENCE_RISE_K * cooling_factor;
    return SPT_OK;
}

double spt_heat_air_w_m2k(enum spt_air air)
{
    static const double coefficients[SPT_AIR_COUNT] = {
        [SPT_AIR_STILL] = 10.0, [SPT_AIR_DRAUGHT] = SPT_AIR_REFERENCE_W_M2K, [SPT_AIR_WIND] = 33.0};
    return (int)air >= 0 && air < SPT_AIR_COUNT ? coefficients[air] : (double)NAN;
}

struct balance_context {
    const struct spt_heat_inputs *in;
    double conductance_w_k;
};

static enum spt_status fill_balance(const struct balance_context *context, double temperature_c,
                                    struct spt_heat_balance *out)
{
    double nu;
    enum spt_status status = spt_viscosity_at(&context->in->oil, temperature_c, &nu);
    if (status == SPT_OK)
        status = spt_heat_friction(context->in, nu, out);
    if (status != SPT_OK)
        return status;
    out->temperature_c = temperature_c;
    out->conductance_w_k = context->conductance_w_k;
    return SPT_OK;
}

/* Generated minus dissipated heat in W; decreases with temperature. */
static double get_surplus(double temperature_c, void *data)
{
    const struct balance_context *context = data;
    struct spt_heat_balance at;
    if (fill_balance(context, temperature_c, &at) != SPT_OK)
        return (double)NAN;
    return at.heat_w + context->in->extra_heat_w -
           context->conductance_w_k * (temperature_c - context->in->ambient_c);
}

static enum spt_status find_balance(struct balance_context *context, double *temperature_c)
{
    if (!(get_surplus(SPT_HOTTEST_C, context) <= 0.0))
        return SPT_NOT_CONVERGED;
    gsl_function surplus = {get_surplus, context};
    return spt_numeric_root(&surplus, context->in->ambient_c, SPT_HOTTEST_C, temperature_c);
}

enum spt_status spt_heat_temperature(const struct spt_heat_inputs *in, struct spt_heat_balance *out)
{
    set_unknown(out);
    struct balance_context context = {in, (double)NAN};
    if (!is_turning_known(in) ||
        !(in->ambient_c >= SPT_COLDEST_C && in->ambient_c <= SPT_HOTTEST_AMBIENT_C) ||
        !(in->extra_heat_w >= 0.0 && isfinite(in->extra_heat_w)) ||
        spt_heat_conductance(in->bearing, in->cooling_factor, &context.conductance_w_k) != SPT_OK)
        return SPT_BAD_ARGUMENT;
    struct spt_heat_balance at_ambient;
    enum spt_status status = fill_balance(&context, in->ambient_c, &at_ambient);
    if (status != SPT_OK)
        return status;
    double temperature = in->ambient_c;
    if (at_ambient.heat_w + in->extra_heat_w > 0.0)
        status = find_balance(&context, &temperature);
    return status == SPT_OK ? fill_balance(&context, temperature, out) : status;
}
