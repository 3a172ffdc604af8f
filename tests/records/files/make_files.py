"""Makes the files beside it. Debian 12: python3-openpyxl 3.0.9, python3-xlsxwriter 3.0.2, zip 3.0,
libreoffice-calc-nogui 7.4.7. Run it in this folder with /usr/bin/python3; what it writes is committed,
so that the tests need none of these."""

import datetime
import os
import subprocess
import zipfile

import openpyxl
import xlsxwriter
from openpyxl.styles import numbers

HEADERS = ["service_id", "unit_id", "axle", "side", "date", "miles", "nut_backed_off", "replaced", "comment"]
DAY = datetime.date


def by_openpyxl():
    book = openpyxl.Workbook()
    notes = book.active
    notes.title = "Read me"
    notes["A1"] = "Work orders of the north shop"
    notes["A2"] = "Ask the office before changing anything"
    jobs = book.create_sheet("Jobs")
    jobs["A1"] = "Wheel-end jobs"
    jobs.merge_cells("A1:I1")
    jobs["A2"] = "printed on"
    jobs["B2"] = DAY(2024, 5, 1)
    jobs["A4"] = "job"
    jobs.merge_cells("A4:B4")
    jobs["C4"] = "position"
    jobs.merge_cells("C4:D4")
    for column, header in enumerate(HEADERS, 1):
        jobs.cell(5, column, header)
    rows = {
        6: ["a", 7, 1, "left", DAY(2024, 2, 29), 100000.5, True, "seal; gasket", "as good as new"],
        7: ["b", "008", 2, "right", datetime.datetime(2024, 3, 1, 23, 59, 59), None, False, "seal", None],
        # Row 8 is blank; row 9 has an error, row 10 a formula that openpyxl leaves without a result.
        9: ["c", "9", 1, "left", DAY(2024, 3, 2), "#DIV/0!", None, None, None],
        10: ["d", "9", 1, "left", DAY(2024, 3, 2), "=F6+1", None, None, None],
        11: ["e", "9", "=1+0", "left", DAY(1999, 12, 31), 5, None, None, "=1/0"],
        12: ["f", "9", 1, "left", DAY(2024, 3, 2), 5, None, None, "<b>&amp; “quoted”, line one\nline two</b>"],
        14: ["total", None, None, None, None, 100010.5, None, None, None],
    }
    for row, cells in rows.items():
        for column, value in enumerate(cells, 1):
            cell = jobs.cell(row, column, value)
            if value == "#DIV/0!":
                cell.data_type = "e"
            if value == 7:
                cell.number_format = "000"
            if isinstance(value, DAY):
                cell.number_format = numbers.FORMAT_DATE_DDMMYY
    hidden = book.create_sheet("Old jobs")
    hidden.append(HEADERS)
    hidden.append(["z", "1", 1, "left", DAY(2001, 1, 1)])
    hidden.sheet_state = "hidden"
    book.save("jobs-openpyxl.xlsx")


def by_xlsxwriter():
    with xlsxwriter.Workbook("jobs-1904.xlsx", {"date_1904": True}) as book:
        day = book.add_format({"num_format": "d mmm yyyy"})
        time = book.add_format({"num_format": "hh:mm"})
        bold = book.add_format({"bold": True})
        sheet = book.add_worksheet("services")
        sheet.write_row(0, 0, HEADERS)
        sheet.write_row(1, 0, ["a", "007", 1, "left"])
        sheet.write_datetime(1, 4, DAY(2024, 2, 29), day)
        sheet.write_formula(1, 5, "=1000+0.5", None, 1000.5)
        sheet.write_boolean(1, 6, True)
        sheet.write_formula(1, 7, '="se"&"al"', None, "seal")
        sheet.write_rich_string(1, 8, "looks ", bold, "dry", " inside")
        sheet.write_row(2, 0, ["b", "007", 1, "left"])
        sheet.write_datetime(2, 4, DAY(2024, 3, 1), day)
        sheet.write_formula(2, 5, "=1/0", None, "#DIV/0!")
        sheet.write_row(3, 0, ["c", "007", 1, "left"])
        sheet.write_datetime(3, 4, DAY(1999, 12, 31), day)
        sheet.write_datetime(3, 8, datetime.time(7, 45), time)
        units = book.add_worksheet("units")
        units.write_row(0, 0, ["unit_id", "axle_roles"])
        units.write_row(1, 0, ["007", "steer;drive"])
        notes = book.add_worksheet("notes")
        notes.write(0, 0, "nothing to read here")
    with xlsxwriter.Workbook("inline.xlsx", {"constant_memory": True}) as book:
        sheet = book.add_worksheet("Sheet1")
        for row in range(3000):
            sheet.write_row(row, 0, HEADERS[:4] if row == 0 else [f"s{row}", f"{row % 7:03}", 1 + row % 3, "left"])
            sheet.write(row, 4, HEADERS[4] if row == 0 else "2024-01-%02d" % (1 + row % 28))


def by_libreoffice():
    for kind in ("ods", "xls"):
        subprocess.run(["soffice", "--headless", "--convert-to", kind, "jobs-openpyxl.xlsx"], check=True)
        os.replace(f"jobs-openpyxl.{kind}", f"jobs.{kind}")
    subprocess.run(["soffice", "--headless", "--convert-to", "xlsx", "jobs.ods"], check=True)
    os.replace("jobs.xlsx", "jobs-libreoffice.xlsx")


def archives():
    units = "unit_id,axle_roles\n007,steer drive\n008,trailer\n"
    services = "service_id,unit_id,axle,side,date\na,007,1,left,2024-02-29\nb,007,9x,left,2024-02-29\n"
    with zipfile.ZipFile("shop.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("north/units.csv", units)
        archive.writestr("north/services.csv", services)
        archive.writestr("__MACOSX/north/._units.csv", "x")
        archive.writestr("north/notes.txt", "nothing\n")
        archive.write("jobs-1904.xlsx", "book.xlsx")
    with open("units.csv", "w") as file:
        file.write(units)
    for name, options in (("locked.zip", ["-P", "secret"]), ("stored.zip", ["-0"])):
        if os.path.exists(name):
            os.remove(name)
        subprocess.run(["zip", "-q", *options, name, "units.csv"], check=True)
    # Through a pipe: sizes stand behind the data, as they do in what programs write while they go.
    with open("piped.zip", "wb") as file:
        subprocess.run("cat units.csv | zip -q -fd - -", shell=True, check=True, stdout=file)
    os.remove("units.csv")


by_openpyxl()
by_xlsxwriter()
by_libreoffice()
archives()
