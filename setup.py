"""What pyproject.toml cannot say: the schema files of the top-level folder go into the package, for which the wheel has a place."""

from pathlib import Path

from setuptools import setup
from setuptools.command.build_py import build_py

SCHEMAS = Path(__file__).parent / "schemas"


class WithSchemas(build_py):
    """Copies the schemas beside the code that reads them."""

    def run(self) -> None:
        """Build as ever, then copy; an editable install reads the folder itself."""
        super().run()
        if not self.editable_mode:
            folder = Path(self.build_lib) / "tabforge" / "schema" / "files"
            self.mkpath(str(folder))
            for path in sorted(SCHEMAS.glob("*.schema.json")):
                self.copy_file(str(path), str(folder / path.name))


setup(cmdclass={"build_py": WithSchemas})
