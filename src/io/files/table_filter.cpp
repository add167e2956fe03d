#include "files/table_filter.hpp"

#include <ogr_api.h>

#include <type_traits>

#include "files/gdal_reading.hpp"
#include "roostward/io/values.hpp"

namespace roostward::io {

namespace {

struct DefinitionReleaser {
    void operator()(OGRFeatureDefnH definition) const noexcept { OGR_FD_Release(definition); }
};
using Definition = std::unique_ptr<std::remove_pointer_t<OGRFeatureDefnH>, DefinitionReleaser>;

Definition definition_of(const std::vector<std::string>& columns, const std::vector<bool>& numeric) {
    Definition definition(OGR_FD_Create("table"));
    OGR_FD_Reference(definition.get());
    for (std::size_t i = 0; i < columns.size(); ++i) {
        OGRFieldDefnH field = OGR_Fld_Create(columns[i].c_str(), numeric[i] ? OFTReal : OFTString);
        OGR_FD_AddFieldDefn(definition.get(), field);
        OGR_Fld_Destroy(field);
    }
    return definition;
}

}  // namespace

struct TableFilter::Query {
    Query(const std::vector<std::string>& columns, const std::vector<bool>& numeric,
          const InputSource& source)
        : definition(definition_of(columns, numeric)),
          filter(definition.get(), source),
          feature(OGR_F_Create(definition.get())) {}

    Definition definition;
    RowFilter filter;
    OwnedFeature feature;
};

TableFilter::TableFilter(const std::vector<std::string>& columns, const std::vector<bool>& numeric,
                         const InputSource& source)
    : query_(std::make_unique<Query>(columns, numeric, source)) {}

TableFilter::~TableFilter() = default;
TableFilter::TableFilter(TableFilter&&) noexcept = default;
TableFilter& TableFilter::operator=(TableFilter&&) noexcept = default;

bool TableFilter::accepts(std::span<const Value> row) const {
    OGRFeatureH feature = query_->feature.get();
    for (std::size_t i = 0; i < row.size(); ++i) {
        const int field = static_cast<int>(i);
        if (const auto* number = std::get_if<double>(&row[i]))
            OGR_F_SetFieldDouble(feature, field, *number);
        else if (const auto* text = std::get_if<std::string_view>(&row[i]))
            OGR_F_SetFieldString(feature, field, std::string(*text).c_str());
        else
            OGR_F_SetFieldNull(feature, field);
    }
    return query_->filter.accepts(feature);
}

void NumericColumns::look_at(std::size_t column, const Value& value) {
    const auto* text = std::get_if<std::string_view>(&value);
    if (text != nullptr && numeric_[column]) numeric_[column] = is_plain_number(*text);
}

}  // namespace roostward::io
