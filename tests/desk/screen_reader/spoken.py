"""The window that is listened to: opens a garden, and at a line on standard input plants by keys."""

from __future__ import annotations

import os
import sys

from PySide6.QtCore import QSettings, QSocketNotifier, Qt
from PySide6.QtTest import QTest

from planner.desk.app import application
from planner.desk.main_window.window import Window


def main() -> None:
    app = application()
    window = Window(QSettings(sys.argv[1], QSettings.Format.IniFormat))
    window.files.open_sample("balcony_boxes")
    window.docks.left.setCurrentWidget(window.docks.contents)
    window.show()

    def work() -> None:
        line = sys.stdin.readline().split()
        if not line:
            app.quit()
            return
        bed, crop = line
        document = window.document
        document.select([one.id for one in document.plan.beds if one.name.split()[0] == bed])
        window.view.place_crop(document.catalogue.crops[crop], by_key=True)
        QTest.keyClick(window.view, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)

    def begin() -> None:
        if window.findings.run is not None:  # what is there already is no news
            window.findings.changed.disconnect(begin)
            notifier.setEnabled(True)

    notifier = QSocketNotifier(sys.stdin.fileno(), QSocketNotifier.Type.Read)
    notifier.activated.connect(work)
    notifier.setEnabled(False)
    window.findings.changed.connect(begin)
    app.exec()
    os._exit(0)


main()
