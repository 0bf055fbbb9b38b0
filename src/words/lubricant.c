/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"
#include "words/table.h"

SPT_DEFINE_WORDS(
    spt_lubrication_words, SPT_LUBRICATION_COUNT, [SPT_LUBRICATION_GREASE] = "grease",
    [SPT_LUBRICATION_OIL_BATH] = "oil bath", [SPT_LUBRICATION_CIRCULATING] = "circulating oil");

SPT_DEFINE_WORDS(spt_solubility_words, SPT_SOLUBILITY_COUNT, [SPT_SOLUBILITY_PLAIN] = "plain",
                 [SPT_SOLUBILITY_ADDITIVATED] = "additivated");

SPT_DEFINE_WORDS(spt_base_oil_words, SPT_BASE_OIL_COUNT, [SPT_BASE_OIL_MINERAL] = "mineral",
                 [SPT_BASE_OIL_PAO] = "PAO", [SPT_BASE_OIL_OTHER] = "other");

SPT_DEFINE_WORDS(
    spt_oil_life_words,
    SPT_INHIBITION_COUNT, [SPT_INHIBITION_NONE] = "plain", [SPT_INHIBITION_EP_GEAR] = "gear",
    [SPT_INHIBITION_HYDRAULIC] = "hydraulic", [SPT_INHIBITION_TURBINE] = "turbine");
