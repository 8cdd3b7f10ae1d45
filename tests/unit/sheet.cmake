ampstair_test(sheet
  FILES sheet_mistakes.test.cpp sheet_reading.test.cpp sheet_files.test.cpp
        sheet_printing.test.cpp sheet_entries.test.cpp
  ARROWS sheet)
