cmake_minimum_required(VERSION 3.25)
# Checks that every #include goes the way the layers allow, and that third parties stay where they belong.
# Run as: cmake -DSOURCE_DIR=… -P include_direction.cmake

set(may_core)
set(may_geo core)
set(may_survey core geo)
set(may_sun core)
set(may_canopy core geo)
set(may_trees core geo canopy)
set(may_activity core geo survey)
set(may_siting core geo survey sun canopy trees activity)
set(may_evenings core geo survey sun canopy trees activity siting)
# Of the analysis, io sees only the record types.
set(may_io core geo survey trees siting evenings)
set(io_records survey/records.hpp survey/survey.hpp survey/evening_hours.hpp survey/animal_words.hpp survey/record_contents.hpp
    trees/record_contents.hpp trees/tree.hpp trees/neighbours.hpp trees/suitability.hpp
    siting/profile.hpp siting/settings.hpp siting/inputs.hpp evenings/settings.hpp)
set(may_plan core geo survey sun canopy trees activity siting evenings)
set(may_report core geo survey sun canopy trees activity siting evenings plan)
set(may_cli core geo io survey sun canopy trees activity siting evenings plan report)

# third party header → layers whose .cpp may include it
set(third_parties "gdal|ogr_|cpl_|vrtdataset" "proj\\.h|proj/|geodesic\\.h" "geos" "boost/geometry" "boost/math"
    "toml\\+\\+|toml\\.hpp" "nlohmann" "simdjson" "openssl" "date/" "sqlite3\\.h" "expat\\.h" "zip\\.h" "xlsxwriter" "qrcodegen" "GeographicLib/" "coin/" "CLI/" "utf8proc" "fmt/")
set(homes "io" "geo" "geo" "geo" "activity" "io" "io" "io" "io" "io" "io" "io" "io" "io" "report" "geo" "siting" "cli" "core"
    "core,geo,survey,trees,siting,evenings,io,plan,report,cli,activity")

set(faults "")
foreach(layer core geo io survey sun canopy trees activity siting evenings plan report cli)
  file(GLOB headers ${SOURCE_DIR}/include/roostward/${layer}/*.hpp)
  file(GLOB_RECURSE sources ${SOURCE_DIR}/src/${layer}/*.cpp ${SOURCE_DIR}/src/${layer}/*.hpp)
  foreach(file ${headers} ${sources})
    file(STRINGS ${file} includes REGEX "^#include")
    foreach(line ${includes})
      if(line MATCHES "\"roostward/([a-z]+)/([a-z_]+\\.hpp)\"")
        set(other ${CMAKE_MATCH_1})
        set(header "${CMAKE_MATCH_1}/${CMAKE_MATCH_2}")
        if(NOT other STREQUAL layer AND NOT other IN_LIST may_${layer})
          list(APPEND faults "${file}: ${layer} may not include ${header}")
        elseif(layer STREQUAL "io" AND other MATCHES "^(survey|trees|siting|evenings)$" AND NOT header IN_LIST io_records)
          list(APPEND faults "${file}: io may include only record types of the analysis, not ${header}")
        endif()
        continue()
      endif()
      foreach(party home IN ZIP_LISTS third_parties homes)
        if(NOT line MATCHES "<(${party})")
          continue()
        endif()
        string(REPLACE "," ";" allowed "${home}")
        if(file MATCHES "/include/")
          list(APPEND faults "${file}: a header may not include a third party: ${line}")
        elseif(NOT layer IN_LIST allowed)
          list(APPEND faults "${file}: ${layer} may not use this third party: ${line}")
        endif()
      endforeach()
    endforeach()
  endforeach()
endforeach()

if(faults)
  list(JOIN faults "\n  " text)
  message(FATAL_ERROR "Includes against the direction of the layers:\n  ${text}")
endif()
